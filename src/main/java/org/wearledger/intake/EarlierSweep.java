package org.wearledger.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.io.input.BOMInputStream;
import org.wearledger.model.DriveId;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.Ownership;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSnapshot;

/** An earlier sweep, from its output folder. */
public final class EarlierSweep {
    private static final String MACHINES = "machines.csv";
    private static final String REPLACEMENTS = "replacements.csv";
    private static final String BUDGET = "budget.csv";
    private static final String ITEMS = "items.csv";
    private static final String OWNERSHIP = "ownership";
    /** As {@code report.CsvWriter} puts it. */
    private static final Pattern APOSTROPHE = Pattern.compile("(^|[;,])'(?=[=+\\-@\\t\\r\\uFF1D\\uFF0B\\uFF0D\\uFF20])");
    private static final List<String> PARTS = List.of("plan", "contingencyForWear", "contingencyForPrices", "allowance");
    private static final CSVFormat FORMAT = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();

    /**
     * One row of a table that a sweep wrote, in either of its forms.
     *
     * @param decimalComma whether semicolons part its cells, and numbers have a comma
     */
    private record Row(CSVRecord cells, boolean decimalComma) {
        boolean has(String column) {
            return cells.isSet(column);
        }

        String get(String column) {
            return cells.get(column);
        }

        long number() {
            return cells.getRecordNumber();
        }

        /** {@code null} for an empty cell; the apostrophe that keeps a spreadsheet from running a text is taken off. */
        String text(String column) {
            String value = cells.get(column);
            return value.isEmpty() ? null : value.indexOf('\'') < 0 ? value : APOSTROPHE.matcher(value).replaceAll("$1");
        }

        String needed(String column) {
            String value = text(column);
            if (value == null) {
                throw new IllegalArgumentException("row " + number() + " has no " + column);
            }
            return value;
        }

        BigDecimal amount(String column) {
            String value = needed(column);
            try {
                return new BigDecimal(decimalComma ? value.replace(',', '.') : value);
            } catch (NumberFormatException e) {
                throw new IllegalArgumentException("row " + number() + " has \"" + value + "\" as " + column + ", which is no number", e);
            }
        }

        /** {@code null} for an empty cell. */
        Double figure(String column) {
            return text(column) == null ? null : (Double) amount(column).doubleValue();
        }
    }

    private EarlierSweep() {
    }

    /**
     * Reads {@code machines.csv} and, as far as they are there, {@code replacements.csv}, {@code budget.csv} and {@code items.csv}.
     *
     * @throws InputMissingException when the folder holds no sweep, or one that cannot be read
     */
    public static SweepSnapshot read(Path folder) throws IOException {
        Path machines = folder.resolve(MACHINES);
        if (!Files.isRegularFile(machines)) {
            throw new InputMissingException("no earlier sweep in " + folder + ": it has no " + MACHINES);
        }
        Path replacements = folder.resolve(REPLACEMENTS);
        boolean hasBudget = Files.isRegularFile(replacements);
        Map<String, List<MachineSnapshot.Planned>> planned = new LinkedHashMap<>();
        try {
            for (Row row : hasBudget ? rows(replacements) : List.<Row>of()) {
                planned.computeIfAbsent(row.needed("machineId"), id -> new ArrayList<>()).add(planned(row));
            }
            Map<String, List<Row>> byMachine = new LinkedHashMap<>();
            List<Row> drives = rows(machines, "machineId", "machineStanding");
            requireOnce(drives);
            drives.stream().filter(row -> !isCustomers(row)).forEach(row -> byMachine.computeIfAbsent(row.needed("machineId"), id -> new ArrayList<>()).add(row));
            return new SweepSnapshot(byMachine.entrySet().stream()
                .map(machine -> snapshot(machine.getKey(), machine.getValue(),
                hasBudget ? planned.getOrDefault(machine.getKey(), List.of()) : null)).toList(),
                rowsIfAny(folder.resolve(BUDGET)).stream().map(row -> new SweepSnapshot.Ask(row.needed("period"), LocalDate.parse(row.needed("until")),
                    row.amount("toAskFor"), parts(row), count(row, "countP50"), count(row, "countP80"))).toList(),
                rowsIfAny(folder.resolve(ITEMS)).stream().map(row -> new SweepSnapshot.Cost(row.needed("item"),
                    row.text("costOfOne") == null ? null : row.amount("costOfOne"))).toList());
        } catch (UncheckedIOException e) {
            throw new InputMissingException("the earlier sweep in " + folder + " cannot be read: " + e.getCause().getMessage());
        } catch (CSVException | IllegalArgumentException | DateTimeException e) {
            throw new InputMissingException("the earlier sweep in " + folder + " cannot be read: " + e.getMessage());
        }
    }

    /** Customers' machines come and go. */
    private static boolean isCustomers(Row row) {
        return row.has(OWNERSHIP) && Ownership.CUSTOMER.label().equals(row.get(OWNERSHIP));
    }

    /** A table copied behind itself would count every drive twice. Two models may use one serial. */
    private static void requireOnce(List<Row> drives) {
        Map<List<String>, Long> seen = new HashMap<>();
        for (Row row : drives) {
            Long before = seen.putIfAbsent(List.of(row.needed("machineId"), row.get("driveSerial"), row.has("driveModel") ? row.get("driveModel") : ""), row.number());
            if (before != null) {
                throw new IllegalArgumentException(MACHINES + " has the drive of row " + before + " again in row " + row.number());
            }
        }
    }

    /** Whatever is to be done at once, an order or a check before it, the order is late. */
    private static MachineSnapshot.Planned planned(Row row) {
        return new MachineSnapshot.Planned(DriveId.fold(row.needed("driveSerial")), row.needed("item"), LocalDate.parse(row.needed("needOn")),
            row.text("orderByOn") == null ? null : LocalDate.parse(row.text("orderByOn")), row.text("orderNow") != null,
            "NO PRICE".equals(row.text("currency")) ? null : row.amount("amount"));
    }

    /** {@code null} where a column is missing, as in a table that was cut to what somebody needed. */
    private static SweepSnapshot.Parts parts(Row row) {
        return PARTS.stream().allMatch(row::has) ? new SweepSnapshot.Parts(row.amount("plan"), contingency(row, "contingencyForWear"),
            contingency(row, "contingencyForPrices"), row.amount("allowance")) : null;
    }

    /** {@code null} where the column is missing or empty. */
    private static Integer count(Row row, String column) {
        return row.has(column) && row.text(column) != null ? Integer.valueOf(row.text(column)) : null;
    }

    /** Empty where a price was missing. */
    private static BigDecimal contingency(Row row, String column) {
        return row.text(column) == null ? null : row.amount(column);
    }

    private static List<Row> rowsIfAny(Path file) throws IOException {
        return Files.isRegularFile(file) ? rows(file) : List.of();
    }

    /** A sweep of no machine leaves its headings: without them a table is empty, cut or another one. */
    private static List<Row> rows(Path file, String... columns) throws IOException {
        char separator;
        try (BufferedReader first = reader(file)) {
            separator = CsvHeader.of(Objects.requireNonNullElse(first.readLine(), "")).delimiter();
        }
        try (CSVParser parser = FORMAT.builder().setDelimiter(separator).get().parse(reader(file))) {
            for (String column : columns) {
                if (!parser.getHeaderNames().contains(column)) {
                    throw new IllegalArgumentException(file.getFileName() + (Files.size(file) == 0 ? " is empty" : " has no column " + column));
                }
            }
            return parser.stream().map(cells -> new Row(cells, separator == ';')).toList();
        }
    }

    private static BufferedReader reader(Path file) throws IOException {
        return new BufferedReader(new InputStreamReader(BOMInputStream.builder().setPath(file).get(), StandardCharsets.UTF_8));
    }

    private static MachineSnapshot snapshot(String id, List<Row> drives, List<MachineSnapshot.Planned> planned) {
        Row first = drives.get(0);
        String lastSeen = first.text("lastSeenOn");
        return new MachineSnapshot(id, first.text("site"),
            drives.stream().map(row -> row.text("driveSerial")).filter(Objects::nonNull).map(DriveId::fold).sorted().toList(),
            standing(first.text("machineStanding")),
            drives.stream().map(row -> row.figure("gigabytesPerDay")).filter(Objects::nonNull).max(Comparator.naturalOrder()).orElse(null),
            first.figure("memoryGibibytes"), lastSeen == null ? null : LocalDate.parse(lastSeen),
            "yes".equals(first.text("reportedThisSweep")), planned);
    }

    private static Standing standing(String label) {
        return Arrays.stream(Standing.values()).filter(standing -> standing.label().equals(label)).findFirst()
            .orElseThrow(() -> new IllegalArgumentException("\"" + label + "\" is no standing"));
    }
}
