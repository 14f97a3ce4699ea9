package org.wearledger.bench;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/** The peer: an embedded columnar SQL engine that parses the same files and groups them by drive. Argument: a query. */
final class Sql {
    private static final String GROUPED = "select count(*), sum(n), max(w) from (select %s as model, %s as serial, count(*) n, max(%s) w, "
        + "max(%s) u, min(%s) f, max(%s) l from %s group by 1, 2)";
    private static final String JSON_COLUMNS = "columns={schemaVersion: 'VARCHAR', collectedAt: 'TIMESTAMP', machine: 'STRUCT(id VARCHAR, memoryBytes BIGINT)', "
        + "drive: 'STRUCT(serial VARCHAR, model VARCHAR, capacityBytes BIGINT)', health: 'STRUCT(percentageUsed INTEGER, dataUnitsWritten HUGEINT, "
        + "powerOnHours HUGEINT, hostWriteCommands HUGEINT)'}";

    private Sql() {
    }

    static String nothing() {
        return "select 1";
    }

    static String groupJson(String files) {
        return GROUPED.formatted("drive.model", "drive.serial", "health.dataUnitsWritten", "health.percentageUsed", "collectedAt", "collectedAt",
            "read_json('" + files + "', format='newline_delimited', " + JSON_COLUMNS + ")");
    }

    static String groupCsv(String file) {
        return GROUPED.formatted("\"drive.model\"", "\"drive.serial\"", "\"health.dataUnitsWritten\"", "\"health.percentageUsed\"", "collectedAt",
            "collectedAt", "read_csv('" + file + "', header=true)");
    }

    public static void main(String[] arguments) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:duckdb:"); Statement statement = connection.createStatement();
            ResultSet result = statement.executeQuery(arguments[0])) {
            result.next();
            System.out.println(result.getString(1));
        }
    }
}
