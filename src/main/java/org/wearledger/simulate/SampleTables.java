package org.wearledger.simulate;

import java.io.IOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** The sample's side tables; figures and sources are invented. */
final class SampleTables {
    private SampleTables() {
    }

    static String ratings(List<DriveModel> models) throws IOException {
        List<List<Object>> rows = models.stream().map(m -> List.<Object>of(m.name(), m.nominalCapacityGigabytes(),
            m.ratedTerabytesWritten(), m.warrantyYears(), "invented data sheet", "2023-05-01")).toList();
        return csv("driveModel,nominalCapacityGigabytes,ratedTerabytesWritten,warrantyYears,source,sourceDate", rows);
    }

    /** With the number in use, 400 of the first model and 100 more of each next one. */
    static String ratingsInField(List<DriveModel> models) throws IOException {
        List<List<Object>> rows = models.stream().map(m -> List.<Object>of(m.name(), m.nominalCapacityGigabytes(), m.ratedTerabytesWritten(), m.warrantyYears(),
            "invented data sheet", "2023-05-01", 400 + 100 * models.indexOf(m))).toList();
        return csv("driveModel,nominalCapacityGigabytes,ratedTerabytesWritten,warrantyYears,source,sourceDate,inField", rows);
    }

    static String inventory(List<Workstation> workstations) throws IOException {
        List<List<Object>> rows = workstations.stream().map(w -> List.<Object>of(w.id(), w.site(), w.costCentre(),
            w.inServiceOn, w.inServiceOn.plusYears(3), w.memoryBytes(), w.attachment().label())).toList();
        return csv("machineId,site,costCentre,inServiceOn,warrantyEndsOn,memoryBytes,attachment", rows);
    }

    static String prices() throws IOException {
        return csv("item,currency,unitPrice,labour,disposalFee,supplier,priceDate", List.of(
            List.of("drive 256 GB", "EUR", "39.00", "45.00", "3.50", "Invented Supplies", "2024-12-02"),
            List.of("drive 512 GB", "EUR", "58.00", "45.00", "3.50", "Invented Supplies", "2024-12-02"),
            List.of("drive 1000 GB", "EUR", "92.00", "45.00", "3.50", "Invented Supplies", "2024-12-02"),
            List.of("board", "EUR", "410.00", "120.00", "3.50", "Invented Supplies", "2024-12-02"),
            List.of("machine", "EUR", "890.00", "60.00", "12.00", "Invented Supplies", "2024-12-02")));
    }

    static String csv(String header, List<List<Object>> rows) throws IOException {
        StringBuilder text = new StringBuilder(header).append('\n');
        try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180.builder().setRecordSeparator('\n').get())) {
            for (List<Object> row : rows) {
                printer.printRecord(row);
            }
        }
        return text.toString();
    }
}
