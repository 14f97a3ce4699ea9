package org.wearledger.bench;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** Made-up fleets in the forms that are measured, made once and kept in a folder. */
final class Inputs {
    /**
     * Percent of its rating that the median drive consumes in a quarter. Maneas et al., FAST 2020, found 99 % of systems at 15 % or less
     * of the rated life, from memory; a fleet that wears faster spends most of a sweep on its budget.
     */
    private static final String MEDIAN_PERCENT = "0.5";

    private final Path folder;
    private final Path launcher;

    Inputs(Path folder, Path launcher) {
        this.folder = folder;
        this.launcher = launcher;
    }

    /** The fleet's reports in one JSON Lines file. */
    Path jsonLines(int drives, int quarters) throws IOException {
        Path file = folder.resolve(drives + "x" + quarters + ".jsonl");
        if (!Files.exists(file)) {
            Path partial = folder.resolve(file.getFileName() + ".partial");
            try (OutputStream out = Files.newOutputStream(partial)) {
                for (Path quarter : quarters(drives, quarters)) {
                    append(quarter, out);
                }
            }
            Files.move(partial, file);
        }
        return file;
    }

    /** Folders of the fleet's reports, one for each quarter, in gzipped JSON Lines. */
    List<Path> quarters(int drives, int quarters) throws IOException {
        Path fleet = folder.resolve(drives + "x" + quarters);
        if (!Files.exists(fleet)) {
            Measured.run(List.of(launcher.toString(), "simulate", "--drives", "" + drives, "--quarters", "" + quarters, "--drift", "0.1",
                "--median-percent", MEDIAN_PERCENT, "--out", fleet.toString()), Map.of("WEARLEDGER_JAVA_OPTS", "-Xmx4g"), java.util.Set.of(0));
        }
        try (Stream<Path> all = Files.list(fleet.resolve("reports"))) {
            return all.filter(Files::isDirectory).sorted().toList();
        }
    }

    private static void append(Path quarter, OutputStream out) throws IOException {
        try (Stream<Path> files = Files.list(quarter)) {
            for (Path file : files.sorted().toList()) {
                try (GZIPInputStream in = new GZIPInputStream(Files.newInputStream(file), 1 << 16)) {
                    in.transferTo(out);
                }
            }
        }
    }

    /** The same reports as CSV. */
    Path csv(Path jsonLines) throws IOException {
        Path file = folder.resolve(jsonLines.getFileName().toString().replace(".jsonl", ".csv"));
        if (!Files.exists(file)) {
            Path partial = folder.resolve(file.getFileName() + ".partial");
            ObjectMapper json = new ObjectMapper();
            try (BufferedReader lines = Files.newBufferedReader(jsonLines); BufferedWriter out = Files.newBufferedWriter(partial)) {
                CSVPrinter printer = new CSVPrinter(out, CSVFormat.RFC4180.builder().setRecordSeparator('\n').get());
                boolean first = true;
                for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                    Map<String, String> cells = new LinkedHashMap<>();
                    flatten("", json.readTree(line), cells);
                    if (first) {
                        printer.printRecord(cells.keySet());
                        first = false;
                    }
                    printer.printRecord(cells.values());
                }
                printer.flush();
            }
            Files.move(partial, file);
        }
        return file;
    }

    private static void flatten(String prefix, JsonNode node, Map<String, String> cells) {
        node.properties().forEach(field -> {
            JsonNode value = field.getValue();
            if (value.isObject()) {
                flatten(prefix + field.getKey() + ".", value, cells);
            } else {
                cells.put(prefix + field.getKey(), value.isArray() ? value.toString().replaceAll("[\\[\\]]", "").replace(',', ' ') : value.asText());
            }
        });
    }

    /** Each report in a file of its own. */
    Path manyFiles(Path jsonLines) throws IOException {
        Path many = folder.resolve(jsonLines.getFileName().toString().replace(".jsonl", "-files"));
        if (!Files.exists(many)) {
            Path partial = Files.createDirectories(folder.resolve(many.getFileName() + ".partial"));
            int number = 0;
            try (BufferedReader lines = new BufferedReader(new InputStreamReader(Files.newInputStream(jsonLines), StandardCharsets.UTF_8))) {
                for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                    Path part = Files.createDirectories(partial.resolve("part-" + number / 1_000));
                    Files.writeString(part.resolve("report-" + number++ + ".json"), line);
                }
            }
            Files.move(partial, many);
        }
        return many;
    }
}
