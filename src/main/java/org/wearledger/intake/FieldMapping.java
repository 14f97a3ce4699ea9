package org.wearledger.intake;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.HealthField;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/**
 * Reads exports that name their fields otherwise: which heading of a CSV file, or which JSON pointer, holds which field of the
 * report form, and in what unit. A field that is not mapped keeps its own name, so a file in the report form is read as ever.
 */
public final class FieldMapping implements Serializable {
    /** Not to be asked of an export that does not know the report form. */
    private static final String VERSION = ReportField.SCHEMA_VERSION.dotted();

    /** What a format in the mapping settles as well as another export. */
    private static final Set<String> SAYS_OFFSET = Set.of("GIVE_OFFSET", "GIVE_TIME");

    /** What may part thousands: the remedy is to say so. */
    private static final String GROUPS = "GROUPED";

    private final LinkedHashMap<String, MappedSource> sources;
    private final HashSet<String> mappedFrom;
    /** Names of the export, other than those of the report form, with their places in {@link RawFields}. */
    private final HashMap<String, Integer> mappedNames = new HashMap<>();
    private final LinkedHashMap<String, String> constants;
    /** Values that mean "not reported", folded. */
    private final HashSet<String> notReported;
    private final TableMapping inventory;
    private final TableMapping repairs;
    private final ExportForm form;
    private final Pseudonyms pseudonyms;
    private transient Read[] reads;

    FieldMapping(LinkedHashMap<String, MappedSource> sources, LinkedHashMap<String, String> constants, HashSet<String> notReported, TableMapping inventory,
                 TableMapping repairs, ExportForm form, Pseudonyms pseudonyms) {
        this.sources = sources;
        mappedFrom = sources.values().stream().map(MappedSource::from).collect(Collectors.toCollection(HashSet::new));
        mappedFrom.stream().filter(from -> ReportField.named(from) == null).sorted().forEach(from -> mappedNames.put(from, mappedNames.size()));
        this.constants = constants;
        this.notReported = notReported;
        this.inventory = inventory;
        this.repairs = repairs;
        this.form = form;
        this.pseudonyms = pseudonyms;
    }

    /** The same, with names of machines, drives and files replaced in what is read. */
    public FieldMapping with(Pseudonyms names) {
        return new FieldMapping(sources, constants, notReported, inventory, repairs, form, names);
    }

    /** Under which names the readings are known. */
    public Pseudonyms pseudonyms() {
        return pseudonyms;
    }

    /** How the inventory is written. */
    TableMapping inventory() {
        return inventory;
    }

    /** How the table of repairs is written. */
    TableMapping repairs() {
        return repairs;
    }

    /** Nothing is called otherwise. */
    public static FieldMapping none() {
        return new FieldMapping(new LinkedHashMap<>(), new LinkedHashMap<>(), new HashSet<>(), TableMapping.none(), TableMapping.none(), ExportForm.NONE, Pseudonyms.none());
    }

    /** @throws InputMissingException when the file is not there or is no mapping; the message says all that is wrong with it, and what is allowed */
    public static FieldMapping load(Path file) throws IOException {
        return MappingDocument.load(file, file.toString());
    }

    /** Names of the export with their places in {@link #emptyFields}. */
    Map<String, Integer> mappedNames() {
        return mappedNames;
    }

    /** To be filled with records of the export. */
    RawFields emptyFields() {
        return new RawFields(mappedNames);
    }

    /** How the export is written. */
    ExportForm form() {
        return form;
    }

    /** Whether a value is taken from the column of that name. */
    boolean isRead(String column) {
        return mappedFrom.contains(column) || ReportField.named(column) != null && !sources.containsKey(column);
    }

    boolean isNone() {
        return sources.isEmpty() && constants.isEmpty() && form.isPlain();
    }

    /** Required fields that neither a heading nor a constant gives; those of the report form by their own names. */
    List<MappedField> missing(List<String> headings) {
        List<MappedField> missing = new ArrayList<>();
        for (String field : Fields.REQUIRED) {
            MappedSource source = sources.get(field);
            boolean there = constants.containsKey(field) || !isNone() && field.equals(VERSION) || headings.contains(field) || source != null && headings.contains(source.from());
            if (!there) {
                missing.add(field(field));
            }
        }
        return missing;
    }

    /** The heading that is near to that of the first required field whose own is missing; {@code null} when none is. */
    String nearestOf(List<String> headings) {
        return Fields.REQUIRED.stream().map(sources::get).filter(source -> source != null && !headings.contains(source.from()))
            .map(source -> Headings.nearest(source.from(), headings)).filter(Objects::nonNull).findFirst().orElse(null);
    }

    private MappedField field(String field) {
        return mapped(field).stream().findFirst().orElse(MappedField.of(field));
    }

    /** The field as it is read, where it is mapped; else nothing. */
    List<MappedField> mapped(String field) {
        MappedSource source = sources.get(field);
        return source == null ? List.of() : List.of(new MappedField(field, source.from(), source.unit()));
    }

    /** That of the times of reports with day and month exchanged; {@code null} where it has not both. */
    String exchangedFormat() {
        MappedSource source = sources.get(ReportField.COLLECTED_AT.dotted());
        return source == null || source.format() == null ? null : source.format().exchanged();
    }

    /** The unit in which the field is written: that of the mapping, else {@code own}, that of the report form. */
    String unit(String field, String own) {
        MappedSource source = sources.get(field);
        return source == null || source.unit() == null ? own : source.unit();
    }

    /** Mapped fields for whose heading or pointer nothing was met, with it; not those met under their own name, or in the raw page. */
    Map<String, String> notMet(Set<String> met) {
        Map<String, String> notMet = new LinkedHashMap<>();
        sources.forEach((field, source) -> {
            if (!met.contains(source.from()) && !met.contains(field) && !(field.startsWith(HealthField.GROUP) && hasPages(met))) {
                notMet.put(field, source.from());
            }
        });
        return notMet;
    }

    private boolean hasPages(Set<String> met) {
        return Stream.of(ReportField.LOG_PAGE, ReportField.PAGE_FILE).map(ReportField::dotted).anyMatch(name -> met.contains(name) || reads(name, met));
    }

    /** Of the names met, those that neither the mapping nor the report form knows. */
    List<String> notUsed(Set<String> met) {
        return met.stream().filter(name -> !mappedFrom.contains(name) && ReportField.named(name) == null).toList();
    }

    /** Whether it read the field under another name from records that have these names. */
    boolean reads(String field, Set<String> met) {
        return sources.containsKey(field) && met.contains(sources.get(field).from());
    }

    /** Whether it read anything under another name from records that have these names. */
    boolean readsAny(Set<String> met) {
        return sources.keySet().stream().anyMatch(field -> reads(field, met));
    }

    /** The same problem, about the heading, the unit and the format of times of the export. */
    Problem explained(Problem problem) {
        if (problem.kind() == ProblemKind.FIELD_MISSING) {
            return missing(problem.with(Fact.MAPPED, "yes"));
        }
        MappedField field = problem.fields().size() == 1 ? problem.fields().get(0) : null;
        MappedSource source = field == null ? null : sources.get(field.name());
        if (source == null || field.isMapped() || problem.fact(Fact.ADVICE) == null) {
            return problem;
        }
        Problem mapped = problem.about(mapped(field.name()));
        String text = problem.fact(Fact.TEXT);
        // What is of the report form fitted, and is wrong for another reason.
        if (source.format() == null && field.name().equals(ReportField.COLLECTED_AT.dotted()) && SAYS_OFFSET.contains(problem.fact(Fact.ADVICE))) {
            return mapped.with(Fact.ADVICE, "SAY_FORMAT");
        }
        if (source.format() == null) {
            return misread(mapped, field.name(), source, text);
        }
        if (isOfReportForm(text)) {
            return source.format().counted(mapped, text);
        }
        ProblemKind kind = problem.kind() == ProblemKind.OPTIONAL_FIELD_INVALID ? problem.kind() : ProblemKind.FIELD_INVALID;
        return source.format().misfit(Problem.of(Finding.FORMAT_MISFIT, problem.source(), problem.subject()).under(kind).about(mapped.fields())
            .with(Fact.TEXT, text).with(Fact.ADVICE, "FORMAT"), text);
    }

    private Problem missing(Problem problem) {
        return problem.finding() == Finding.NAME_UNSEEN || problem.fields().stream().noneMatch(field -> sources.containsKey(field.name())) ? problem
            : problem.about(problem.fields().stream().map(field -> field(field.name())).toList()).with(Fact.NOTHING, notReported.isEmpty() ? "PLAIN" : "OR_NOT_REPORTED");
    }

    private static Problem misread(Problem problem, String field, MappedSource source, String text) {
        String given = problem.fact(Fact.ADVICE);
        String decimals = DecimalRemedy.of(field, source, text);
        // What was converted, and is too much then, is quoted as the cell has it.
        boolean converted = field.equals(ReportField.CAPACITY_BYTES.dotted()) && source.unit() != null && text.matches("\\d{15,18}");
        String cell = converted ? FieldUnits.inUnit(Long.parseLong(text), source.unit()) : text;
        boolean byUnit = given.startsWith(Misread.BY_UNIT);
        String advice = converted ? "CORRECT_UNIT" : advice(problem, field, source, decimals);
        Problem of = problem;
        if (source.unit() != null) {
            // The unit takes decimals: a point is no fraction too many, but another sign than the mapping's.
            boolean otherSign = DecimalRemedy.CORRECT_DECIMAL.equals(decimals) || decimals == null && byUnit;
            of = source.expecting(field, Problem.of(source.invalid(field), problem.source(), problem.subject()).under(problem.kind()).about(problem.fields()).with(Fact.TEXT, cell)
                .with(Fact.SLIP, otherSign ? null : problem.fact(Fact.SLIP)));
        }
        return of.with(Fact.ADVICE, advice).with(Fact.MAPPED, "yes").with(Fact.OTHER_UNIT, FieldUnits.usualWithDecimals(field)).with(Fact.ROUNDED, FieldUnits.wholes(field))
            .with(Fact.FORMAT, NumberForm.sign(text));
    }

    private static String advice(Problem problem, String field, MappedSource source, String decimals) {
        if (decimals != null) {
            return decimals;
        }
        String slip = problem.fact(Fact.SLIP);
        if (slip != null && slip.startsWith(GROUPS) && !source.numbers().saysGrouping() && !FieldUnits.isOfPercent(field)) {
            return "SAY_GROUPING";
        }
        String given = problem.fact(Fact.ADVICE);
        if (!given.startsWith(Misread.BY_UNIT)) {
            return given;
        }
        if (source.unit() != null) {
            return "CORRECT_DECIMAL_OR_UNIT";
        }
        return source.numbers().decimalComma() ? Misread.BY_UNIT : given;
    }

    private static boolean isOfReportForm(String text) {
        try {
            OffsetDateTime.parse(text);
            return true;
        } catch (DateTimeException e) {
            return false;
        }
    }

    /** A mapped field with its place and that of what it is read from, looked up once. */
    private record Read(String name, ReportField field, String from, ReportField fromField, int place, MappedSource source, ZoneId zone, FieldUnits.Whole whole) {
        static Read of(String name, MappedSource source, int place) {
            boolean time = name.equals(ReportField.COLLECTED_AT.dotted()) && source.format() != null;
            return new Read(name, ReportField.named(name), source.from(), ReportField.named(source.from()), place, source,
                time ? source.zoneId() : null, source.unit() == null ? null : FieldUnits.whole(name, source.unit()));
        }

        String text(RawFields values) {
            return fromField != null ? values.get(fromField) : values.mapped(place, from);
        }

        /** Whether it is of the usual kind: a time that came once, or a whole number of a unit, which are then there. Else it is looked at closely. */
        boolean isUsual(String text, RawFields fields) {
            Instant at = zone == null ? null : source.instant(text, zone);
            long number = whole == null ? -1 : whole.converted(text);
            if (at != null) {
                fields.put(at);
            } else if (number >= 0) {
                fields.put(field, number);
            }
            return at != null || number >= 0;
        }
    }

    private Read[] reads() {
        Read[] made = reads;
        if (made == null) {
            made = sources.entrySet().stream().map(entry -> Read.of(entry.getKey(), entry.getValue(), mappedNames.getOrDefault(entry.getValue().from(), -1))).toArray(Read[]::new);
            reads = made;
        }
        return made;
    }

    /**
     * The record under the report form's names. Fields that the export has beside those mapped stay as they are.
     *
     * @param fields is filled, and holds until it is filled again
     */
    RawRecord apply(RawRecord raw, RawFields fields) {
        if (isNone() || raw.problem() != null) {
            return raw;
        }
        fields.clear();
        // What the export calls its own way and nobody asked for is no misspelling.
        for (ReportField field : ReportField.ALL) {
            String value = raw.values().has(field) ? raw.values().get(field) : null;
            if (value != null && !isNotReported(value) && isMeant(field, value) && !mappedFrom.contains(field.dotted())) {
                fields.put(field, value);
            }
        }
        Map<Read, MappedValue> doubtful = null;
        for (Read read : reads()) {
            String value = read.text(raw.values());
            if (value != null && !isNotReported(value) && !read.isUsual(value, fields)) {
                MappedValue mapped = read.source.read(read.name, value.strip());
                // There, but without a value: neither is the record without health, nor does a constant take its place.
                fields.put(read.field, Objects.toString(mapped.text(), ""));
                doubtful = mapped.doubt() == null ? doubtful : added(doubtful, read, mapped);
            }
        }
        constants.forEach((field, value) -> putIfAbsent(fields, field, value));
        putIfAbsent(fields, VERSION, "1.0");
        List<Problem> notes = new ArrayList<>();
        for (Map.Entry<Read, MappedValue> entry : doubtful == null ? Map.<Read, MappedValue>of().entrySet() : doubtful.entrySet()) {
            Read read = entry.getKey();
            Problem problem = problem(raw, read, entry.getValue(), Fields.subject(fields));
            if (entry.getValue().text() == null && read.field.isDecisive()) {
                return RawRecord.broken(problem);
            }
            notes.add(problem);
        }
        return new RawRecord(raw.source(), fields, null, notes);
    }

    private static Map<Read, MappedValue> added(Map<Read, MappedValue> to, Read read, MappedValue value) {
        Map<Read, MappedValue> all = to == null ? new LinkedHashMap<>() : to;
        all.put(read, value);
        return all;
    }

    /** Many an export has a column "file" of its own. */
    private static boolean isMeant(ReportField field, String value) {
        return field != ReportField.PAGE_FILE || ReportFile.isPage(value);
    }

    boolean isNotReported(String value) {
        return !notReported.isEmpty() && notReported.contains(Headings.folded(value));
    }

    private static void putIfAbsent(RawFields fields, String field, String value) {
        if (fields.get(field) == null) {
            fields.put(field, value);
        }
    }

    private Problem problem(RawRecord raw, Read read, MappedValue mapped, String subject) {
        boolean left = mapped.text() == null && !read.field.isDecisive();
        Problem problem = mapped.told(Problem.of(mapped.doubt(), raw.source(), subject).about(mapped(read.name)).with(Fact.TEXT, Fields.shortened(read.text(raw.values()).strip())));
        return read.source.expecting(read.name, left ? problem.under(ProblemKind.OPTIONAL_FIELD_INVALID) : problem);
    }
}
