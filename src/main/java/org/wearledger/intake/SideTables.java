package org.wearledger.intake;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Function;
import org.wearledger.model.Attachment;
import org.wearledger.model.Decision;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Price;
import org.wearledger.model.Ownership;
import org.wearledger.model.Rating;
import org.wearledger.model.Repair;

/**
 * The side tables, CSV with a header as in {@code schemas/side-tables.md}: their columns, and what each must hold.
 */
public final class SideTables {
    /** Makers give drives up to ten (common practice, from memory); 24 or 36 are months. */
    private static final BigDecimal MOST_YEARS = BigDecimal.valueOf(15);
    /** How far ahead of the sweep a date of a machine may lie; farther is a digit exchanged. */
    private static final int MOST_YEARS_AHEAD = 15;

    private static final BigDecimal BYTES_PER_GIBIBYTE = BigDecimal.valueOf(1L << 30);

    /** Drives for servers are rated at up to 30 writes of the capacity a day over five years (from memory), 54,750; beyond both a unit is wrong. */
    private static final int FEWEST_RATED_WRITES = 5;
    private static final int MOST_RATED_WRITES = 60_000;
    private static final List<String> OF_RATINGS = List.of("driveModel", "nominalCapacityGigabytes", "ratedTerabytesWritten", "source");
    private static final List<String> OF_PRICES = List.of("item", "currency", "unitPrice");
    private static final List<String> BESIDE_PRICES = List.of("labour", "disposalFee", "supplier", "priceDate", "exchangeRate", "packSize", "breakQuantity", "breakPrice", "stock", "account", "capexOrOpex");
    private static final BigDecimal MOST_THINGS = BigDecimal.valueOf(1_000_000);
    private static final List<String> OF_INVENTORY = List.of("machineId");
    private static final List<String> BESIDE_INVENTORY = List.of("site", "shop", "costCentre", "inServiceOn", "warrantyEndsOn", "memoryBytes", "memoryGibibytes", "attachment",
        "userSince", "driveReplacedOn", "ownership", "assetTag", "machineModel", "user", "refreshOn", "supportEndsOn");

    private static final List<String> OF_REPAIRS = List.of("ticket", "machineId", "repairDate", "reason");
    private static final List<String> BESIDE_REPAIRS = List.of("driveSerial", "site", "action", "cost");
    private static final List<String> OF_DECISIONS = List.of("machineId", "state", "date");
    static final List<String> INVENTORY_COLUMNS = SideTableReader.all(OF_INVENTORY, BESIDE_INVENTORY);
    static final List<String> REPAIRS_COLUMNS = SideTableReader.all(OF_REPAIRS, BESIDE_REPAIRS);

    /** Columns of what a sweep writes, which no side table has. */
    private static final Set<String> OF_OUTPUTS = Set.of("standing", "change");

    private SideTables() {
    }

    /** Which table has these columns, {@code prices}, {@code ratings}, {@code repairs}, {@code decisions} or {@code inventory}; {@code null} when none has, or an output of a sweep. */
    static String named(List<String> columns) {
        if (columns.stream().anyMatch(OF_OUTPUTS::contains)) {
            return null;
        }
        if (columns.containsAll(OF_PRICES)) {
            return "prices";
        }
        if (columns.contains("driveModel") && columns.contains("ratedTerabytesWritten")) {
            return "ratings";
        }
        if (columns.containsAll(OF_REPAIRS)) {
            return "repairs";
        }
        if (columns.containsAll(OF_DECISIONS)) {
            return "decisions";
        }
        return columns.containsAll(OF_INVENTORY) && columns.stream().anyMatch(BESIDE_INVENTORY::contains) ? "inventory" : null;
    }

    /** Columns {@code driveModel, nominalCapacityGigabytes, ratedTerabytesWritten, warrantyYears, source, sourceDate, inField}. */
    public static SideTable<Rating> ratings(ReportFile file) throws IOException {
        return SideTableReader.read(file, OF_RATINGS, List.of("warrantyYears", "sourceDate", "inField"), FieldMapping.none(), TableMapping.none(),
            row -> new Rating(row.required("driveModel"), row.requiredNumber("nominalCapacityGigabytes"), ratedTerabytes(row),
                row.numberUpTo("warrantyYears", MOST_YEARS), row.required("source"), row.date("sourceDate"), inField(row)),
            rating -> DriveId.fold(rating.driveModel()) + " at "
                + rating.nominalCapacityGigabytes().stripTrailingZeros().toPlainString() + " GB");
    }

    private static Long inField(SideTableRow row) throws SideTableRow.Fault {
        BigDecimal drives = row.numberUpTo("inField", SideTableRow.MOST);
        return drives == null || drives.signum() == 0 ? null : (Long) drives.setScale(0, RoundingMode.HALF_UP).longValue();
    }

    /** One that no drive has would decide every standing of its model. */
    private static BigDecimal ratedTerabytes(SideTableRow row) throws SideTableRow.Fault {
        BigDecimal terabytes = row.requiredNumber("ratedTerabytesWritten");
        double writes = 1_000 * terabytes.doubleValue() / row.requiredNumber("nominalCapacityGigabytes").doubleValue();
        if (writes < FEWEST_RATED_WRITES || writes > MOST_RATED_WRITES) {
            throw new SideTableRow.Fault(row.fault(Finding.ROW_RATING_IMPOSSIBLE, "ratedTerabytesWritten").with(Fact.RATIO, writes).with(Fact.GIGABYTES, row.text("nominalCapacityGigabytes")));
        }
        return terabytes;
    }

    /** Columns {@code machineId, site, costCentre, inServiceOn, warrantyEndsOn, memoryBytes or memoryGibibytes, attachment, userSince, driveReplacedOn, ownership,
     * assetTag, machineModel, user, refreshOn, supportEndsOn}; {@code shop} is another name for the site. */
    public static SideTable<InventoryEntry> inventory(ReportFile file) throws IOException {
        return inventory(file, null, FieldMapping.none());
    }

    /**
     * The same, with dates of service held against the as-of date.
     *
     * @param last when a machine may have gone into service at the latest; {@code null} for any time
     * @param mapping that serves the file
     */
    public static SideTable<InventoryEntry> inventory(ReportFile file, LocalDate last, FieldMapping mapping) throws IOException {
        LocalDate farthest = last == null ? null : last.plusYears(MOST_YEARS_AHEAD);
        return SideTableReader.read(file, OF_INVENTORY, BESIDE_INVENTORY, mapping, mapping.inventory(),
            row -> new InventoryEntry(row.required("machineId"), row.text("site") == null ? row.text("shop") : row.text("site"), row.text("costCentre"),
                row.serviceDate("inServiceOn", last), row.dateOfMachine("warrantyEndsOn", farthest), memoryBytes(row),
                labelled(row, "attachment", Attachment.values(), Attachment::label, Finding.ROW_ATTACHMENT_UNKNOWN),
                row.date("userSince"), row.date("driveReplacedOn"), labelled(row, "ownership", Ownership.values(), Ownership::label, Finding.ROW_OWNERSHIP_UNKNOWN),
                row.text("assetTag"), row.text("machineModel"), row.text("user"), row.dateOfMachine("refreshOn", farthest), row.dateOfMachine("supportEndsOn", farthest)),
            entry -> DriveId.fold(entry.machineId()));
    }

    private static Long memoryBytes(SideTableRow row) throws SideTableRow.Fault {
        BigDecimal bytes = row.number("memoryBytes", true);
        BigDecimal gibibytes = row.numberUpTo("memoryGibibytes", SideTableRow.MOST);
        if (bytes != null && gibibytes != null) {
            throw new SideTableRow.Fault(row.fault(Finding.ROW_MEMORY_TWICE, "memoryBytes"));
        }
        BigDecimal memory = gibibytes == null ? bytes : gibibytes.multiply(BYTES_PER_GIBIBYTE).setScale(0, RoundingMode.HALF_UP);
        if (memory != null && memory.stripTrailingZeros().scale() > 0) {
            throw new SideTableRow.Fault(row.fault(Finding.ROW_MEMORY_NOT_WHOLE, "memoryBytes"));
        }
        if (memory == null || memory.signum() == 0) {
            return null;
        }
        if (memory.compareTo(BigDecimal.valueOf(Fields.LEAST_MEMORY_BYTES)) < 0 || memory.compareTo(BigDecimal.valueOf(Fields.MOST_MEMORY_BYTES)) > 0) {
            row.problems().add(row.fault(Finding.TABLE_MEMORY, gibibytes == null ? "memoryBytes" : "memoryGibibytes"));
            return null;
        }
        return memory.longValueExact();
    }

    /** Columns {@code item, currency, unitPrice, labour, disposalFee, supplier, priceDate, exchangeRate, packSize, breakQuantity, breakPrice, stock, account, capexOrOpex}. */
    public static SideTable<Price> prices(ReportFile file) throws IOException {
        return SideTableReader.read(file, OF_PRICES, BESIDE_PRICES, FieldMapping.none(), TableMapping.none(), row -> new Price(row.required("item"),
            row.required("currency"), row.requiredNumber("unitPrice"), row.numberUpTo("labour", SideTableRow.MOST),
            row.numberUpTo("disposalFee", SideTableRow.MOST), row.text("supplier"), row.date("priceDate"), terms(row)),
            price -> DriveId.fold(price.item()) + " in " + price.currency().toUpperCase(Locale.ROOT));
    }

    private static Price.Terms terms(SideTableRow row) throws SideTableRow.Fault {
        BigDecimal rate = row.numberUpTo("exchangeRate", SideTableRow.MOST);
        BigDecimal breakPrice = row.numberUpTo("breakPrice", SideTableRow.MOST);
        if (breakPrice != null && breakPrice.compareTo(row.requiredNumber("unitPrice")) > 0) {
            throw new SideTableRow.Fault(row.fault(Finding.ROW_BREAK_DEARER, "breakPrice"));
        }
        return new Price.Terms(rate == null || rate.signum() == 0 ? null : rate, Math.max(1, whole(row, "packSize")), whole(row, "breakQuantity"), breakPrice,
            whole(row, "stock"), row.text("account"), row.text("capexOrOpex"));
    }

    /** Of things, up to a million; 0 when it is empty. */
    private static int whole(SideTableRow row, String column) throws SideTableRow.Fault {
        BigDecimal number = row.numberUpTo(column, MOST_THINGS);
        return number == null ? 0 : number.setScale(0, RoundingMode.CEILING).intValueExact();
    }

    /**
     * Columns {@code ticket, machineId, driveSerial, site, repairDate, reason, action, cost}.
     *
     * @param mapping that serves the file
     * @param last day that a repair may have
     */
    public static SideTable<Repair> repairs(ReportFile file, FieldMapping mapping, LocalDate last) throws IOException {
        TableMapping words = mapping.repairs();
        return SideTableReader.read(file, OF_REPAIRS, BESIDE_REPAIRS, mapping, words,
            row -> new Repair(row.required("ticket"), row.required("machineId"), row.text("driveSerial"), row.text("site"), pastDate(row, "repairDate", last),
                reason(row, words), row.text("action") == null ? null : words.word(row.text("action")),
                row.numberUpTo("cost", SideTableRow.MOST)),
            repair -> "ticket " + DriveId.fold(repair.ticket()) + ", " + DriveId.fold(repair.machineId()) + (repair.action() == null ? "" : ", " + repair.action()));
    }

    /**
     * Columns {@code machineId, state, date, until, item, cost, note}.
     *
     * @param mapping that serves the file
     * @param last day that a decision may have
     */
    public static SideTable<Decision> decisions(ReportFile file, FieldMapping mapping, LocalDate last) throws IOException {
        return SideTableReader.read(file, OF_DECISIONS, List.of("until", "item", "cost", "note"), mapping, TableMapping.none(), row -> decision(row, last),
            decision -> DriveId.fold(decision.machineId()) + ", " + decision.state().label() + " on " + decision.date() + (decision.item() == null ? "" : ", " + DriveId.fold(decision.item())));
    }

    private static Decision decision(SideTableRow row, LocalDate last) throws SideTableRow.Fault {
        Decision.State state = Decision.State.of(row.required("state")).orElseThrow(() -> new SideTableRow.Fault(row.fault(Finding.ROW_STATE_UNKNOWN, "state")));
        LocalDate until = row.date("until");
        if (state.hasEnd() && row.required("until") != null && until == null) {
            throw new SideTableRow.Fault(row.fault(Finding.ROW_END_INVALID, "until"));
        }
        return new Decision(row.required("machineId"), state, pastDate(row, "date", last), until, row.text("item"), row.numberUpTo("cost", SideTableRow.MOST), row.text("note"));
    }

    private static LocalDate pastDate(SideTableRow row, String column, LocalDate last) throws SideTableRow.Fault {
        try {
            LocalDate date = LocalDate.parse(row.required(column));
            if (!date.isBefore(Fields.FIRST_IN_SERVICE) && !date.isAfter(last)) {
                return date;
            }
        } catch (DateTimeParseException e) {
            // Said below: another form is as wrong as another time.
        }
        throw new SideTableRow.Fault(row.fault(Finding.ROW_DATE_INVALID, column).with(Fact.LEAST, Fields.FIRST_IN_SERVICE).with(Fact.UNTIL, last));
    }

    private static Repair.Reason reason(SideTableRow row, TableMapping words) throws SideTableRow.Fault {
        String own = row.required("reason");
        return Repair.Reason.of(words.word(own))
            .orElseThrow(() -> new SideTableRow.Fault(row.fault(Finding.ROW_REASON_UNKNOWN, "reason")));
    }

    /** One of a few words, in any case; {@code null} for an empty cell. */
    private static <T> T labelled(SideTableRow row, String column, T[] values, Function<T, String> label, Finding otherwise) throws SideTableRow.Fault {
        String text = row.text(column);
        if (text == null) {
            return null;
        }
        return Arrays.stream(values).filter(value -> label.apply(value).equalsIgnoreCase(text)).findFirst().orElseThrow(() -> new SideTableRow.Fault(row.fault(otherwise, column)));
    }
}
