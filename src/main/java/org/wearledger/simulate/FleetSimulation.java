package org.wearledger.simulate;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.zip.GZIPOutputStream;

/** Writes the reports of an invented fleet, and beside them the truth they were drawn from. */
public final class FleetSimulation {
    static final String REPORTS = "reports";
    static final String TRUTH = "truth";
    static final int MOST_REPORTS_PER_FILE = 5_000;

    private FleetSimulation() {
    }

    /**
     * Writes {@code reports/} (to be swept), {@code truth/} and a README into {@code folder}, which is made when missing;
     * files of the same name are replaced. Reports are written one by one: only the drives' counters stay in memory.
     */
    public static void write(Path folder, FleetSettings settings) throws IOException {
        FleetCourse course = new FleetCourse(settings);
        List<FleetMachine> machines = new ArrayList<>(settings.drives());
        for (int number = 1; number <= settings.drives(); number++) {
            machines.add(new FleetMachine(course, number));
        }
        for (int sweep = 0; sweep < settings.quarters(); sweep++) {
            Path quarter = Files.createDirectories(folder.resolve(REPORTS).resolve(course.quarterName(sweep)));
            writeSweep(quarter, machines, sweep);
        }
        SampleFolder files = new SampleFolder(folder);
        files.text(REPORTS + "/ratings.csv", SampleTables.ratings(DriveModel.ALL));
        files.text(REPORTS + "/inventory.csv", SampleTables.inventory(machines.stream().map(m -> m.workstation).toList()));
        FleetTruth.write(Files.createDirectories(folder.resolve(TRUTH)), course, machines);
        files.text("README.md", FleetReadme.text(settings));
    }

    /** A machine's reports stand in the file of the same number in each sweep. */
    private static void writeSweep(Path quarter, List<FleetMachine> machines, int sweep) throws IOException {
        for (int from = 0; from < machines.size(); from += MOST_REPORTS_PER_FILE) {
            List<FleetMachine> part = machines.subList(from, Math.min(machines.size(), from + MOST_REPORTS_PER_FILE));
            if (sweep > 0) {
                part.forEach(machine -> machine.advance(sweep));
            }
            List<FleetMachine> reporting = part.stream().filter(machine -> machine.reports(sweep)).toList();
            if (!reporting.isEmpty()) {
                String name = String.format(Locale.ROOT, "reports-%02d.jsonl.gz", from / MOST_REPORTS_PER_FILE + 1);
                writeReports(quarter.resolve(name), reporting, sweep);
            }
        }
    }

    /** The JDK packs with a modification time of zero, so the same reports give the same bytes. */
    private static void writeReports(Path file, List<FleetMachine> machines, int sweep) throws IOException {
        try (Writer lines = new BufferedWriter(new OutputStreamWriter(
                new GZIPOutputStream(Files.newOutputStream(file), 1 << 16), StandardCharsets.UTF_8))) {
            for (FleetMachine machine : machines) {
                lines.write(ReportText.object(machine.reading(sweep)).toString());
                lines.write('\n');
            }
        }
    }
}
