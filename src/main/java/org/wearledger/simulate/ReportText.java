package org.wearledger.simulate;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.StringJoiner;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;

/** Readings in the words of {@code schemas/}. Lines end in LF whatever the platform. */
final class ReportText {
    private static final ObjectMapper JSON = new ObjectMapper();

    private ReportText() {
    }

    static ObjectNode object(Reading reading) {
        ObjectNode report = identity(reading);
        Health health = reading.health();
        ObjectNode figures = report.putObject("health");
        for (HealthField field : HealthField.ALL) {
            if (field.isList()) {
                figures.set(field.ownName(), JSON.valueToTree(health.temperatureSensorsKelvin()));
            } else if (health.has(field)) {
                figures.put(field.ownName(), health.exact(field));
            }
        }
        return report;
    }

    static ObjectNode objectWithPage(Reading reading, byte[] page) {
        return identity(reading).put("healthLogPage", LogPage.base64(page));
    }

    static ObjectNode objectWithPage(Reading reading) {
        return objectWithPage(reading, LogPage.encode(reading.health()));
    }

    private static ObjectNode identity(Reading reading) {
        Machine machine = reading.machine();
        Drive drive = reading.drive();
        ObjectNode report = JSON.createObjectNode();
        report.put("schemaVersion", "1.0").put("collectedAt", reading.collectedAt().toString());
        ObjectNode told = report.putObject("machine").put("id", machine.id()).put("assetTag", machine.assetTag()).put("site", machine.site())
            .put("costCentre", machine.costCentre()).put("model", machine.model()).put("memoryBytes", machine.memoryBytes())
            .put("swapUsedBytes", machine.swapUsedBytes()).put("inServiceOn", machine.inServiceOn().toString());
        if (machine.userSince() != null) {
            told.put("userSince", machine.userSince().toString());
        }
        report.putObject("drive").put("serial", drive.serial()).put("model", drive.model()).put("firmware", drive.firmware())
            .put("capacityBytes", drive.capacityBytes()).put("attachment", drive.attachment().label());
        return report;
    }

    static String pretty(JsonNode node) {
        DefaultIndenter indent = new DefaultIndenter("  ", "\n");
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter().withObjectIndenter(indent).withArrayIndenter(indent);
        try {
            return JSON.writer(printer).writeValueAsString(node) + "\n";
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree can always be written", e);
        }
    }

    static String array(Collection<Reading> readings) {
        ArrayNode array = JSON.createArrayNode();
        readings.forEach(reading -> array.add(object(reading)));
        return pretty(array);
    }

    static String lines(Collection<ObjectNode> reports) {
        return reports.stream().map(ObjectNode::toString).collect(Collectors.joining("\n", "", "\n"));
    }

    static String csv(Collection<Reading> readings) throws IOException {
        List<Map<String, String>> rows = readings.stream().map(ReportText::row).toList();
        Set<String> header = new LinkedHashSet<>();
        rows.forEach(row -> header.addAll(row.keySet()));
        StringBuilder text = new StringBuilder();
        try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180.builder().setRecordSeparator('\n').get())) {
            printer.printRecord(header);
            for (Map<String, String> row : rows) {
                printer.printRecord(header.stream().map(row::get));
            }
        }
        return text.toString();
    }

    private static Map<String, String> row(Reading reading) {
        Map<String, String> row = new LinkedHashMap<>();
        flatten("", object(reading), row);
        return row;
    }

    private static void flatten(String prefix, JsonNode node, Map<String, String> row) {
        node.properties().forEach(field -> {
            String name = prefix + field.getKey();
            JsonNode value = field.getValue();
            if (value.isObject()) {
                flatten(name + ".", value, row);
            } else if (value.isArray()) {
                StringJoiner joined = new StringJoiner(" ");
                value.forEach(item -> joined.add(item.asText()));
                row.put(name, joined.toString());
            } else if (!value.isNull()) {
                row.put(name, value.asText());
            }
        });
    }
}
