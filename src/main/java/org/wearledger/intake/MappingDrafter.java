package org.wearledger.intake;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.wearledger.model.Drive;
import org.wearledger.model.HealthField;
import org.wearledger.model.HealthField.Quantity;
import org.wearledger.model.MappingDraft;
import org.wearledger.model.MappingDraft.Basis;
import org.wearledger.model.MappingDraft.Choice;
import org.wearledger.model.MappingDraft.Field;
import org.wearledger.model.MappingDraft.Sign;

/** Proposes a mapping for an export. A unit is settled by its heading or because no other can be; else it stays open. */
public final class MappingDrafter {
    private static final Pattern NUMBER = Pattern.compile("-?\\d{1,39}(\\.\\d{1,18})?");
    private static final Pattern PERCENT_SIGN = Pattern.compile("[\\s\u00a0\u2009\u202f]*%$");
    private static final Pattern ENDS_IN_THREE_DIGITS = Pattern.compile("[1-9]\\d{0,2}[.,]\\d{3}");
    private static final Set<String> TIMES = Set.of(ReportField.COLLECTED_AT.dotted(), ReportField.IN_SERVICE_ON.dotted());
    private static final Map<String, String> BINARY = Map.of("KB", "KiB", "MB", "MiB", "GB", "GiB", "TB", "TiB");
    /** What the drive of a fleet that was written most has behind it, in bytes; what memory and temperature may be. Wide on purpose. */
    private static final double LEAST_WRITTEN = 5e10;
    private static final double MOST_WRITTEN = 1e16;
    private static final double BYTES_PER_DATA_UNIT = 512_000;
    private static final double GIGABYTE = 1e9;
    private static final double GIBIBYTE = 1L << 30;
    private static final List<Integer> MEMORY_GIBIBYTES = List.of(2, 3, 4, 6, 8, 12, 16, 18, 20, 24, 32, 36, 40, 48, 64, 96, 128, 192, 256);
    private static final double EXACT = 0.004;
    private static final double MOST_TEMPERATURE = 150;
    private static final int PER_CENT = 100;
    private static final int MOST_HAVE_IT = 80;
    private static final String DECIMAL = "decimal";
    private static final String GROUPING = "grouping";

    private final ExportSample export;
    private final Map<String, List<String>> values;
    private final List<NumberForm> forms;
    private final Map<String, List<BigDecimal>> numbers = new HashMap<>();

    private MappingDrafter(ExportSample export) {
        this.export = export;
        values = export.values();
        forms = Stream.of(NumberForm.PLAIN, NumberForm.of(",", null), NumberForm.of(null, ","), NumberForm.of(null, ".")).toList();
    }

    /** @throws InputMissingException when the file holds no record that can be read */
    public static MappingDraft of(Path file) throws IOException {
        return best(ExportSample.of(file)).map(MappingDrafter::of)
            .orElseThrow(() -> new InputMissingException(file + " holds no record that can be read; wearledger check says why"));
    }

    /** Where most of what is needed was found, of the ways in which records may lie. */
    static Optional<ExportSample> best(List<ExportSample> samples) {
        return samples.stream().min(Comparator.comparing(sample -> of(sample).lacking().size()));
    }

    static MappingDraft of(ExportSample export) {
        return new MappingDrafter(export).draft();
    }

    private MappingDraft draft() {
        Map<String, HeadingWords.Found> found = HeadingWords.found(values.keySet(), export.within(), this::mayHold);
        List<String> measured = found.entrySet().stream().filter(entry -> ReportField.named(entry.getKey()).quantity() != null).map(entry -> entry.getValue().heading()).toList();
        List<NumberForm> fitting = forms.stream().filter(form -> measured.stream().allMatch(heading -> numbers(heading, form) != null)).toList();
        NumberForm form = fitting.isEmpty() ? NumberForm.PLAIN : fitting.get(0);
        // One mapping has one form: where columns differ, check says which values it cannot read.
        measured.forEach(heading -> numbers.put(heading, Stream.concat(Stream.of(form), forms.stream()).map(each -> numbers(heading, each)).filter(Objects::nonNull).findFirst().orElseThrow()));
        List<Field> fields = new ArrayList<>();
        found.keySet().forEach(name -> fields.add(field(name, found)));
        Set<String> used = found.values().stream().map(HeadingWords.Found::heading).collect(Collectors.toSet());
        List<String> lacking = Fields.REQUIRED.stream().filter(name -> !name.equals(ReportField.SCHEMA_VERSION.dotted()) && !found.containsKey(name)).toList();
        return new MappingDraft(fields, signs(measured, form, found), lacking, values.keySet().stream().filter(heading -> !used.contains(heading)).toList(), export.rows().size(),
            export.encoding(), export.within(), export.doubled());
    }

    private boolean mayHold(String name, String heading) {
        List<String> cells = values.get(heading);
        if (cells.isEmpty() || export.json() && cells.stream().anyMatch(cell -> cell.startsWith("[") || cell.startsWith("{"))) {
            return false;
        }
        return TIMES.contains(name) ? cells.stream().allMatch(cell -> cell.chars().anyMatch(Character::isDigit))
            : ReportField.named(name).quantity() == null || forms.stream().anyMatch(form -> numbers(heading, form) != null);
    }

    /** {@code null} where a value is no number in this form. */
    private List<BigDecimal> numbers(String heading, NumberForm form) {
        List<BigDecimal> read = new ArrayList<>();
        for (String value : values.get(heading)) {
            String plain = form.plain(PERCENT_SIGN.matcher(value).replaceFirst(""));
            if (plain == null || !NUMBER.matcher(plain).matches()) {
                return null;
            }
            read.add(new BigDecimal(plain));
        }
        return read;
    }

    /**
     * A sign with three digits behind it may part thousands or decimals: settled by a value that can be but one of them, or by what can have
     * been written in the unit that the heading names.
     */
    private List<Sign> signs(List<String> measured, NumberForm form, Map<String, HeadingWords.Found> found) {
        List<String> signed = measured.stream().flatMap(heading -> values.get(heading).stream()).map(value -> PERCENT_SIGN.matcher(value).replaceFirst(""))
            .filter(value -> value.indexOf(',') >= 0 || value.indexOf('.') >= 0).toList();
        if (signed.isEmpty()) {
            return List.of();
        }
        String sample = signed.get(0);
        String sign = sample.indexOf(',') >= 0 ? "," : ".";
        if (signed.stream().allMatch(value -> ENDS_IN_THREE_DIGITS.matcher(value).matches() && value.contains(sign))) {
            Sign decimal = new Sign(DECIMAL, sign, sample.replace(',', '.'), null);
            Sign grouping = new Sign(GROUPING, sign, sample.replace(sign, ""), null);
            boolean asDecimals = mayBeWritten(found, NumberForm.of(sign, null));
            boolean asGroups = mayBeWritten(found, NumberForm.of(null, sign));
            if (asDecimals == asGroups) {
                return List.of(decimal, grouping);
            }
            return List.of(asDecimals ? decimal.not(grouping) : grouping.not(decimal));
        }
        if (form == NumberForm.PLAIN) {
            return List.of();
        }
        boolean comma = form == forms.get(1);
        return List.of(comma ? new Sign(DECIMAL, ",", form.plain(sample), null) : new Sign(GROUPING, form == forms.get(2) ? "," : ".", form.plain(sample), null));
    }

    private boolean mayBeWritten(Map<String, HeadingWords.Found> found, NumberForm form) {
        String field = ReportField.of(HealthField.DATA_UNITS_WRITTEN).dotted();
        String heading = found.containsKey(field) ? found.get(field).heading() : "";
        String unit = HeadingWords.unit(heading, FieldUnits.allowed(field));
        List<BigDecimal> read = unit == null ? null : numbers(heading, form);
        return read == null || isWritten(largest(field, unit, read) * BYTES_PER_DATA_UNIT);
    }

    private Field field(String name, Map<String, HeadingWords.Found> found) {
        HeadingWords.Found where = found.get(name);
        String heading = where.heading();
        List<String> cells = values.get(heading);
        if (TIMES.contains(name)) {
            return time(name, where, cells, found);
        }
        Set<String> allowed = FieldUnits.allowed(name);
        String sample = cells.get(largest(heading));
        if (allowed.isEmpty()) {
            return new Field(name, from(heading), null, List.of(), Basis.NONE, null, sample, where.others());
        }
        String said = HeadingWords.unit(heading, allowed);
        List<String> possible = possible(name, heading, allowed);
        Basis basis = basis(said, possible);
        Collection<String> left = basis == Basis.HEADING ? List.of(said) : left(said, possible, allowed);
        String otherwise = basis == Basis.HEADING && possible.size() > 1 ? BINARY.get(said) : null;
        return new Field(name, from(heading), "unit", left.stream().map(unit -> choice(name, heading, unit)).toList(), basis, otherwise == null ? null : choice(name, heading, otherwise),
            sample, where.others());
    }

    /** @param said unit of the heading, {@code null} for none */
    private static Basis basis(String said, List<String> possible) {
        if (said != null && possible.contains(said)) {
            return Basis.HEADING;
        }
        return possible.size() == 1 ? Basis.VALUES : Basis.OPEN;
    }

    private static Collection<String> left(String said, List<String> possible, Set<String> allowed) {
        if (!possible.isEmpty()) {
            return possible;
        }
        return said != null && BINARY.containsKey(said) ? List.of(said, BINARY.get(said)) : allowed;
    }

    /** As a mapping writes it. */
    private String from(String heading) {
        boolean dotted = export.json() && heading.indexOf('.') >= 0;
        return !dotted && !heading.startsWith("/") ? heading : dotted ? ExportForm.pointer(List.of(heading.split("\\.", -1))) : ExportForm.pointer(List.of(heading));
    }

    /** The place of the value that tells most of a unit; of texts the first. */
    private int largest(String heading) {
        List<BigDecimal> values = numbers.getOrDefault(heading, List.of());
        return values.isEmpty() ? 0 : values.indexOf(Collections.max(values));
    }

    private Choice choice(String name, String heading, String unit) {
        return new Choice(unit, FieldUnits.converted(name, unit, numbers.get(heading).get(largest(heading))));
    }

    private Field time(String name, HeadingWords.Found where, List<String> cells, Map<String, HeadingWords.Found> found) {
        String sample = cells.get(0);
        boolean isReport = name.equals(ReportField.COLLECTED_AT.dotted());
        if (cells.stream().allMatch(cell -> UsualTime.instant(cell) != null) || !isReport && cells.stream().allMatch(cell -> UsualTime.date(cell) != null)) {
            return new Field(name, from(where.heading()), null, List.of(), Basis.NONE, null, sample, where.others());
        }
        List<Choice> formats = LikelyFormats.of(cells).entrySet().stream().map(format -> new Choice(format.getKey(), format.getValue())).toList();
        Choice rising = isReport && formats.size() > 1 ? rising(where.heading(), formats, found) : null;
        if (rising != null) {
            Choice other = formats.stream().filter(format -> format != rising).findFirst().orElseThrow();
            return new Field(name, from(where.heading()), "format", List.of(rising), Basis.COURSE, other, sample, where.others());
        }
        return new Field(name, from(where.heading()), "format", formats, formats.size() == 1 ? Basis.VALUES : Basis.OPEN, null, sample, where.others());
    }

    /** The one format by which what drives have written never falls, where it does by each other; else {@code null}. */
    private Choice rising(String times, List<Choice> formats, Map<String, HeadingWords.Found> found) {
        HeadingWords.Found serial = found.get(ReportField.SERIAL.dotted());
        HeadingWords.Found written = found.get(ReportField.of(HealthField.DATA_UNITS_WRITTEN).dotted());
        if (serial == null || written == null || numbers.get(written.heading()).size() != export.rows().size()) {
            return null;
        }
        List<Choice> rising = formats.stream().filter(format -> falls(new DatePattern(format.value()), times, serial.heading(), numbers.get(written.heading())) == 0).toList();
        return rising.size() == 1 ? rising.get(0) : null;
    }

    private long falls(DatePattern format, String times, String serial, List<BigDecimal> written) {
        Map<String, TreeMap<String, BigDecimal>> drives = new HashMap<>();
        for (int i = 0; i < written.size(); i++) {
            Map<String, String> row = export.rows().get(i);
            if (row.get(times) != null && row.get(serial) != null) {
                drives.computeIfAbsent(row.get(serial), each -> new TreeMap<>()).put(format.time(row.get(times)).toString(), written.get(i));
            }
        }
        return drives.values().stream().mapToLong(drive -> falls(List.copyOf(drive.values()))).sum();
    }

    private static long falls(List<BigDecimal> course) {
        return IntStream.range(1, course.size()).filter(i -> course.get(i).compareTo(course.get(i - 1)) < 0).count();
    }

    /** Units in which the values can be what the field says. */
    private List<String> possible(String name, String heading, Set<String> allowed) {
        List<BigDecimal> values = numbers.get(heading);
        ReportField field = ReportField.named(name);
        Predicate<String> can = unit -> values.stream().allMatch(value -> FieldUnits.converted(name, unit, value) != null);
        return switch (field.quantity()) {
            case BYTES -> sizes(field, values, allowed);
            case DATA_UNITS -> allowed.stream().filter(unit -> isWritten(largest(name, unit, values) * BYTES_PER_DATA_UNIT)).toList();
            case PERCENT, PERCENT_USED -> allowed.stream().filter(unit -> can.test(unit) && FieldUnits.isShare(unit) == areShares(values) && isSaid(heading, unit, field.quantity())).toList();
            case KELVIN -> List.of(values.stream().allMatch(value -> value.doubleValue() < MOST_TEMPERATURE) ? "celsius" : "kelvin");
            default -> List.copyOf(allowed);
        };
    }

    private static boolean isWritten(double bytes) {
        return bytes >= LEAST_WRITTEN && bytes <= MOST_WRITTEN;
    }

    private static double largest(String name, String unit, List<BigDecimal> values) {
        return values.stream().map(value -> FieldUnits.converted(name, unit, value)).mapToDouble(converted -> converted == null ? 0 : Double.parseDouble(converted)).max().orElse(0);
    }

    private static boolean areShares(List<BigDecimal> values) {
        return values.stream().allMatch(value -> value.compareTo(BigDecimal.ONE) <= 0) && values.stream().anyMatch(value -> value.stripTrailingZeros().scale() > 0);
    }

    /** Whether the words of the heading leave it possible that what is used, or what remains, stands there. */
    private static boolean isSaid(String heading, String unit, Quantity quantity) {
        List<String> words = HeadingWords.of(heading);
        boolean used = words.stream().anyMatch(word -> word.equals("used") || word.startsWith("consum") || word.startsWith("verbrauch"));
        boolean left = words.stream().anyMatch(word -> word.startsWith("remain") || word.equals("left") || word.startsWith("rest") || word.startsWith("verbleib"));
        return quantity == Quantity.PERCENT || used == left || left == unit.endsWith("Remaining");
    }

    /** Capacities that are sold, memory that is built in; what fits a size to the letter goes before what is only near. */
    private static List<String> sizes(ReportField field, List<BigDecimal> values, Set<String> allowed) {
        if (field != ReportField.MEMORY_BYTES && field != ReportField.CAPACITY_BYTES) {
            return List.copyOf(allowed);
        }
        Predicate<Double> size = field == ReportField.CAPACITY_BYTES ? bytes -> Drive.isSold(bytes / GIGABYTE, EXACT)
            : bytes -> MEMORY_GIBIBYTES.stream().anyMatch(sold -> Math.abs(bytes / GIBIBYTE - sold) <= EXACT * sold);
        return allowed.stream().filter(unit -> values.stream().map(value -> FieldUnits.converted(field.dotted(), unit, value))
            .filter(bytes -> bytes != null && size.test(Double.parseDouble(bytes))).count() * PER_CENT >= values.size() * (long) MOST_HAVE_IT).toList();
    }
}
