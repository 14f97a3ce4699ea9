package org.wearledger.intake;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
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

    private final LinkedHashMap<String, MappedSource> sources;
    private final HashSet<String> mappedFrom;
    private final LinkedHashMap<String, String> constants;
    /** Values that mean "not reported", folded. */
    private final HashSet<String> notReported;
    private final Pseudonyms pseudonyms;

    FieldMapping(LinkedHashMap<String, MappedSource> sources, LinkedHashMap<String, String> constants, HashSet<String> notReported, Pseudonyms pseudonyms) {
        this.sources = sources;
        mappedFrom = sources.values().stream().map(MappedSource::from).collect(Collectors.toCollection(HashSet::new));
        this.constants = constants;
        this.notReported = notReported;
        this.pseudonyms = pseudonyms;
    }

    /** The same, with names of machines, drives and files replaced in what is read. */
    public FieldMapping with(Pseudonyms names) {
        return new FieldMapping(sources, constants, notReported, names);
    }

    /** Under which names the readings are told. */
    public Pseudonyms pseudonyms() {
        return pseudonyms;
    }

    /** Nothing is called otherwise. */
    public static FieldMapping none() {
        return new FieldMapping(new LinkedHashMap<>(), new LinkedHashMap<>(), new HashSet<>(), Pseudonyms.none());
    }

    /** @throws InputMissingException when the file is not there or is no mapping; the message says all that is wrong with it, and what is allowed */
    public static FieldMapping load(Path file) throws IOException {
        return MappingDocument.load(file);
    }

    static String folded(String value) {
        return value.strip().toLowerCase(Locale.ROOT);
    }

    boolean isNone() {
        return sources.isEmpty() && constants.isEmpty();
    }

    /** Required fields that neither a heading nor a constant gives; those of the report form by their own names. */
    List<String> missing(List<String> headings) {
        List<String> missing = new ArrayList<>();
        for (String field : Fields.REQUIRED) {
            MappedSource source = sources.get(field);
            boolean there = constants.containsKey(field) || !isNone() && field.equals(VERSION) || headings.contains(source == null ? field : source.from());
            if (!there) {
                missing.add(source == null ? field : field + " (from \"" + source.from() + "\")");
            }
        }
        return missing;
    }

    /** Of the first required field whose mapped heading is missing and is near to one that is there; empty when none is. */
    String nearestOf(List<String> headings) {
        return Fields.REQUIRED.stream().map(sources::get).filter(source -> source != null && !headings.contains(source.from()))
            .map(source -> Headings.near(source.from(), headings)).filter(words -> !words.isEmpty()).findFirst().orElse("");
    }

    /** The field as it is read, where it is mapped; else nothing. */
    List<MappedField> mapped(String field) {
        MappedSource source = sources.get(field);
        return source == null ? List.of() : List.of(new MappedField(field, source.from(), source.unit()));
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
            if (!met.contains(source.from()) && !met.contains(field) && !(field.startsWith("health.") && met.contains(ReportField.LOG_PAGE.dotted()))) {
                notMet.put(field, source.from());
            }
        });
        return notMet;
    }

    /** Of the names met, those that neither the mapping nor the report form knows. */
    List<String> notUsed(Set<String> met) {
        return met.stream().filter(name -> !mappedFrom.contains(name) && ReportField.named(name) == null).toList();
    }

    /** Whether it read the field under another name from records that have these names. */
    boolean reads(String field, Set<String> met) {
        return sources.containsKey(field) && met.contains(sources.get(field).from());
    }

    /** Of the files, as problems name them, those with a reading in which it read anything under another name. */
    public Set<String> filesReadUnder(Collection<FileSummary> files) {
        return files.stream().filter(file -> file.isRead() && sources.keySet().stream().anyMatch(field -> reads(field, file.namesMet())))
            .map(file -> pseudonyms.file(file.file())).collect(Collectors.toCollection(TreeSet::new));
    }

    /** The same problem in the words of the export: its heading, its unit, its format of times. */
    Problem explained(Problem problem) {
        if (problem.kind() == ProblemKind.FIELD_MISSING && !isNone()) {
            return missing(problem);
        }
        for (Map.Entry<String, MappedSource> entry : sources.entrySet()) {
            MappedSource source = entry.getValue();
            if (problem.found().startsWith(entry.getKey() + " is \"")) {
                return source.format() != null ? misfit(problem, entry.getKey(), source) : misread(problem, entry.getKey(), source);
            }
        }
        return problem;
    }

    private Problem missing(Problem problem) {
        String remedy = problem.remedy().replace(ReadingParser.SEE_COLUMNS, "");
        List<String> fields = List.of(problem.found().replaceFirst("^no ", "").split(", "));
        if (fields.stream().noneMatch(sources::containsKey)) {
            return new Problem(problem.kind(), problem.source(), problem.subject(), problem.found(), problem.expected(), remedy);
        }
        String named = fields.stream().map(field -> sources.containsKey(field) ? named(field, sources.get(field)) : field).collect(Collectors.joining(", "));
        return new Problem(problem.kind(), problem.source(), problem.subject(), "no " + named + ": nothing stands there"
            + (notReported.isEmpty() ? "" : ", or a value of \"notReported\""), problem.expected(), remedy);
    }

    private static Problem misread(Problem problem, String field, MappedSource source) {
        String found = named(field, source) + problem.found().substring(field.length());
        // Without quotation marks: what stands in them is withheld under pseudonyms.
        String remedy = problem.remedy() + (problem.remedy().contains(Misread.LEAVE_OUT) ? "; or name it under notReported in the mapping" : "");
        String ofDecimals = DecimalRemedy.of(field, source, quotedText(problem, field));
        if (ofDecimals != null) {
            // Under a unit a decimal point is no fraction too many, but another sign than the mapping's.
            boolean otherSign = ofDecimals.equals(DecimalRemedy.CORRECT_DECIMAL);
            return new Problem(problem.kind(), problem.source(), problem.subject(), otherSign ? untilQuoted(found) : found, source.unit() == null ? problem.expected() : source.expectedNumber(field),
                (remedy.startsWith(Fields.NOT_REPORTED) ? Fields.NOT_REPORTED : "") + ofDecimals);
        }
        if (source.unit() == null) {
            return new Problem(problem.kind(), problem.source(), problem.subject(), found, problem.expected(), source.decimalComma() ? remedy.replace(Misread.FOR_THE_COMMA, "") : remedy);
        }
        // The unit is given and takes decimals: what is wrong is how they are written.
        boolean decimals = problem.remedy().contains(Misread.BY_UNIT);
        return new Problem(problem.kind(), problem.source(), problem.subject(), decimals ? untilQuoted(found) : found,
            source.expectedNumber(field), remedy.replace(Misread.FOR_THE_COMMA, "").replace(Misread.BY_UNIT, "correct \"decimal\" or the unit in the mapping, or the value"));
    }

    private static Problem misfit(Problem problem, String field, MappedSource source) {
        String text = quotedText(problem, field);
        String named = named(field, source) + " is \"" + text + "\"";
        if (isOfReportForm(text)) {
            // It fitted, and is wrong for another reason.
            return new Problem(problem.kind(), problem.source(), problem.subject(), named, problem.expected(), problem.remedy());
        }
        boolean optional = problem.kind() == ProblemKind.OPTIONAL_FIELD_INVALID;
        return new Problem(optional ? problem.kind() : ProblemKind.FIELD_INVALID, problem.source(), problem.subject(), named + source.pattern().misfit(text),
            "a time as the mapping says, " + source.format(), (optional ? Fields.NOT_REPORTED : "") + "correct the format in the mapping, or the value");
    }

    private static String untilQuoted(String found) {
        return found.substring(0, found.lastIndexOf('"') + 1);
    }

    private static String quotedText(Problem problem, String field) {
        int quote = field.length() + " is \"".length();
        return problem.found().substring(quote, Math.max(quote, problem.found().lastIndexOf('"')));
    }

    private static String named(String field, MappedSource source) {
        return field + " (from \"" + source.from() + "\")";
    }

    private static boolean isOfReportForm(String text) {
        try {
            OffsetDateTime.parse(text);
            return true;
        } catch (DateTimeException e) {
            return false;
        }
    }

    /** The record under the report form's names. Fields that the export has beside those mapped stay as they are. */
    RawRecord apply(RawRecord raw) {
        if (isNone() || raw.problem() != null) {
            return raw;
        }
        RawFields fields = new RawFields();
        // What the export calls its own way and nobody asked for is no misspelling.
        for (ReportField field : ReportField.ALL) {
            String value = raw.values().get(field);
            if (value != null && !isNotReported(value) && !mappedFrom.contains(field.dotted())) {
                fields.put(field, value);
            }
        }
        Map<String, MappedValue> doubtful = new LinkedHashMap<>();
        sources.forEach((field, source) -> {
            String value = raw.values().get(source.from());
            if (value != null && !isNotReported(value)) {
                MappedValue mapped = source.read(field, value.strip());
                // There, but without a value: neither is the record without health, nor does a constant take its place.
                fields.put(field, mapped.text() == null ? "" : mapped.text());
                if (mapped.doubt() != null) {
                    doubtful.put(field, mapped);
                }
            }
        });
        constants.forEach((field, value) -> putIfAbsent(fields, field, value));
        putIfAbsent(fields, VERSION, "1.0");
        List<Problem> notes = new ArrayList<>();
        for (Map.Entry<String, MappedValue> entry : doubtful.entrySet()) {
            Problem problem = problem(raw, entry.getKey(), entry.getValue(), Fields.subject(fields));
            if (entry.getValue().text() == null && Fields.isDecisive(entry.getKey())) {
                return RawRecord.broken(problem);
            }
            notes.add(problem);
        }
        return new RawRecord(raw.source(), fields, null, notes);
    }

    private boolean isNotReported(String value) {
        return !notReported.isEmpty() && notReported.contains(folded(value));
    }

    private static void putIfAbsent(RawFields fields, String field, String value) {
        if (fields.get(field) == null) {
            fields.put(field, value);
        }
    }

    private Problem problem(RawRecord raw, String field, MappedValue mapped, String subject) {
        MappedSource source = sources.get(field);
        String text = raw.values().get(source.from()).strip();
        boolean left = mapped.text() == null && !Fields.isDecisive(field);
        return new Problem(left ? ProblemKind.OPTIONAL_FIELD_INVALID : mapped.kind(), raw.source(), subject, Fields.quoted(named(field, source), text) + ", " + mapped.doubt(),
            mapped.expected(), (left ? Fields.NOT_REPORTED : "") + mapped.remedy());
    }
}
