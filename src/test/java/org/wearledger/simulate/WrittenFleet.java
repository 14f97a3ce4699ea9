package org.wearledger.simulate;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.ReportReader;
import org.wearledger.intake.WholeFile;
import org.wearledger.model.Outcome;
import org.wearledger.model.Reading;

/** A fleet read back as a sweep reads it: readings by serial in the order of sweeps, truth by serial. */
record WrittenFleet(Map<String, List<Reading>> readings, Map<String, CSVRecord> truth, Map<String, String> settings) {

    static WrittenFleet of(Path folder, FleetSettings settings) throws IOException {
        FleetSimulation.write(folder, settings);
        Map<String, List<Reading>> readings = new HashMap<>();
        for (ReportFile file : FoundFiles.find(List.of(folder.resolve(FleetSimulation.REPORTS).toString())).reports()) {
            try (ReportReader reader = WholeFile.reader(file)) {
                while (reader.hasNext()) {
                    Outcome<Reading> outcome = reader.next().outcome();
                    assertThat(outcome.problems()).isEmpty();
                    outcome.values().forEach(r -> readings.computeIfAbsent(r.drive().serial(), k -> new ArrayList<>()).add(r));
                }
            }
        }
        Map<String, CSVRecord> truth = new LinkedHashMap<>();
        table(folder, FleetTruth.DRIVES).forEach(row -> truth.put(row.get("driveSerial"), row));
        Map<String, String> set = new LinkedHashMap<>();
        table(folder, FleetTruth.SETTINGS).forEach(row -> set.put((row.get("setting") + " " + row.get("of")).strip(), row.get("value")));
        return new WrittenFleet(readings, truth, set);
    }

    private static List<CSVRecord> table(Path folder, String name) throws IOException {
        String text = Files.readString(folder.resolve(FleetSimulation.TRUTH).resolve(name), StandardCharsets.UTF_8);
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get().parse(new StringReader(text))) {
            return parser.getRecords();
        }
    }

    double truth(String serial, String column) {
        return Double.parseDouble(truth.get(serial).get(column));
    }

    /** From sweep to sweep, as a share of the rating; without the first sweep's. */
    List<Double> consumed(String serial) {
        List<Double> shares = new ArrayList<>();
        List<Reading> ofDrive = readings.get(serial);
        double ratedBytes = DriveModel.ALL.stream().filter(m -> m.name().equals(truth.get(serial).get("driveModel")))
            .findFirst().orElseThrow().ratedTerabytesWritten() * 1e12;
        for (int i = 1; i < ofDrive.size(); i++) {
            BigInteger more = ofDrive.get(i).health().bytesWritten().subtract(ofDrive.get(i - 1).health().bytesWritten());
            shares.add(more.doubleValue() / ratedBytes);
        }
        return shares;
    }
}
