package org.wearledger.intake;

import java.io.IOException;
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
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
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
    private static final List<String> PARTS = List.of("plan", "contingencyForWear", "contingencyForPrices", "allowance");
    private static final CSVFormat FORMAT = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();

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
            for (CSVRecord row : hasBudget ? rows(replacements) : List.<CSVRecord>of()) {
                planned.computeIfAbsent(needed(row, "machineId"), id -> new ArrayList<>()).add(planned(row));
            }
            Map<String, List<CSVRecord>> byMachine = new LinkedHashMap<>();
            List<CSVRecord> drives = rows(machines, "machineId", "machineStanding");
            requireOnce(drives);
            drives.stream().filter(row -> !isCustomers(row)).forEach(row -> byMachine.computeIfAbsent(needed(row, "machineId"), id -> new ArrayList<>()).add(row));
            return new SweepSnapshot(byMachine.entrySet().stream()
                .map(machine -> snapshot(machine.getKey(), machine.getValue(),
                hasBudget ? planned.getOrDefault(machine.getKey(), List.of()) : null)).toList(),
                rowsIfAny(folder.resolve(BUDGET)).stream().map(row -> new SweepSnapshot.Ask(needed(row, "period"), LocalDate.parse(needed(row, "until")),
                    new BigDecimal(needed(row, "toAskFor")), parts(row))).toList(),
                rowsIfAny(folder.resolve(ITEMS)).stream().map(row -> new SweepSnapshot.Cost(needed(row, "item"),
                    text(row, "costOfOne") == null ? null : new BigDecimal(needed(row, "costOfOne")))).toList());
        } catch (UncheckedIOException e) {
            throw new InputMissingException("the earlier sweep in " + folder + " cannot be read: " + e.getCause().getMessage());
        } catch (CSVException | IllegalArgumentException | DateTimeException e) {
            throw new InputMissingException("the earlier sweep in " + folder + " cannot be read: " + e.getMessage());
        }
    }

    /** Customers' machines come and go. */
    private static boolean isCustomers(CSVRecord row) {
        return row.isSet(OWNERSHIP) && Ownership.CUSTOMER.label().equals(row.get(OWNERSHIP));
    }

    /** A table copied behind itself would count every drive twice. Two models may use one serial. */
    private static void requireOnce(List<CSVRecord> drives) {
        Map<List<String>, Long> seen = new HashMap<>();
        for (CSVRecord row : drives) {
            Long before = seen.putIfAbsent(List.of(needed(row, "machineId"), row.get("driveSerial"), row.isSet("driveModel") ? row.get("driveModel") : ""), row.getRecordNumber());
            if (before != null) {
                throw new IllegalArgumentException(MACHINES + " has the drive of row " + before + " again in row " + row.getRecordNumber());
            }
        }
    }

    /** Whatever is to be done at once, an order or a check before it, the order is late. */
    private static MachineSnapshot.Planned planned(CSVRecord row) {
        return new MachineSnapshot.Planned(DriveId.fold(needed(row, "driveSerial")), needed(row, "item"), LocalDate.parse(needed(row, "needOn")),
            LocalDate.parse(needed(row, "orderByOn")), text(row, "orderNow") != null,
            "NO PRICE".equals(text(row, "currency")) ? null : new BigDecimal(needed(row, "amount")));
    }

    /** {@code null} where a column is missing, as in a table that was cut to what somebody needed. */
    private static SweepSnapshot.Parts parts(CSVRecord row) {
        return PARTS.stream().allMatch(row::isSet) ? new SweepSnapshot.Parts(new BigDecimal(needed(row, "plan")), contingency(row, "contingencyForWear"),
            contingency(row, "contingencyForPrices"), new BigDecimal(needed(row, "allowance"))) : null;
    }

    /** Empty where a price was missing. */
    private static BigDecimal contingency(CSVRecord row, String column) {
        String amount = text(row, column);
        return amount == null ? null : new BigDecimal(amount);
    }

    private static List<CSVRecord> rowsIfAny(Path file) throws IOException {
        return Files.isRegularFile(file) ? rows(file) : List.of();
    }

    /** A sweep of no machine leaves its headings: without them a table is empty, cut or another one. */
    private static List<CSVRecord> rows(Path file, String... columns) throws IOException {
        try (CSVParser parser = CSVParser.parse(file, StandardCharsets.UTF_8, FORMAT)) {
            for (String column : columns) {
                if (!parser.getHeaderNames().contains(column)) {
                    throw new IllegalArgumentException(file.getFileName() + (Files.size(file) == 0 ? " is empty" : " has no column " + column));
                }
            }
            return parser.getRecords();
        }
    }

    private static MachineSnapshot snapshot(String id, List<CSVRecord> drives, List<MachineSnapshot.Planned> planned) {
        CSVRecord first = drives.get(0);
        String lastSeen = text(first, "lastSeenOn");
        return new MachineSnapshot(id, text(first, "site"),
            drives.stream().map(row -> text(row, "driveSerial")).filter(Objects::nonNull).map(DriveId::fold).sorted().toList(),
            standing(text(first, "machineStanding")),
            drives.stream().map(row -> number(row, "gigabytesPerDay")).filter(Objects::nonNull).max(Comparator.naturalOrder()).orElse(null),
            number(first, "memoryGibibytes"), lastSeen == null ? null : LocalDate.parse(lastSeen),
            "yes".equals(text(first, "reportedThisSweep")), planned);
    }

    private static Standing standing(String label) {
        return Arrays.stream(Standing.values()).filter(standing -> standing.label().equals(label)).findFirst()
            .orElseThrow(() -> new IllegalArgumentException("\"" + label + "\" is no standing"));
    }

    private static Double number(CSVRecord row, String column) {
        String value = text(row, column);
        return value == null ? null : (Double) Double.parseDouble(value);
    }

    private static String needed(CSVRecord row, String column) {
        String value = text(row, column);
        if (value == null) {
            throw new IllegalArgumentException("row " + row.getRecordNumber() + " has no " + column);
        }
        return value;
    }

    /** {@code null} for an empty cell; the apostrophe that keeps a spreadsheet from running a text is taken off. */
    private static String text(CSVRecord row, String column) {
        String value = row.get(column);
        return value.isEmpty() ? null : value.matches("'[=+\\-@\\t\\r].*") ? value.substring(1) : value;
    }
}
