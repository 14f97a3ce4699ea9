package org.wearledger.intake;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.wearledger.model.Effect;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * What is to be said of a file as a whole, from the part of it that was read, and added up over its parts.
 *
 * @param unread about how many records were not reached behind faults; {@value RecordSource#NOT_KNOWN} when nobody can tell, {@code null} when all were
 * @param notes what was noted, or why the file was refused, before its first record
 * @param unknownFields name of a field that the report form does not have, and in how many records it stood
 * @param memoryBytes the sizes of memory that its readings give, each once
 * @param likelyEncoding what its bytes look like where they are no UTF-8, {@code null} for nothing known
 * @param namesMet of a mapped file, the names that its records have; empty for any other
 * @param pages real places of the raw pages that its records name
 * @param inPercent fields of percent that a reading shows to hold no shares of 1
 */
public record FileSummary(String file, long records, long readings, Long unread, List<Problem> notes, Map<String, Long> unknownFields, Set<String> namesMet,
                          Set<Long> memoryBytes, Set<String> pages, Set<String> inPercent, String likelyEncoding)
    implements Serializable {
    /** One more is kept, so that it shows that there are others. */
    private static final int MOST_NOT_USED = 5;

    /** Of all files, by name, each of them whole. */
    public static Map<String, FileSummary> added(Collection<FileSummary> parts) {
        Map<String, FileSummary> files = new TreeMap<>();
        parts.forEach(part -> files.merge(part.file, part, FileSummary::plus));
        return files;
    }

    FileSummary plus(FileSummary other) {
        List<Problem> allNotes = new ArrayList<>(notes);
        allNotes.addAll(other.notes);
        Map<String, Long> allUnknown = new TreeMap<>(unknownFields);
        other.unknownFields.forEach((name, count) -> allUnknown.merge(name, count, Long::sum));
        Set<String> allMet = new TreeSet<>(namesMet);
        allMet.addAll(other.namesMet);
        Set<Long> allMemory = new TreeSet<>(memoryBytes);
        allMemory.addAll(other.memoryBytes);
        Set<String> allPages = new TreeSet<>(pages);
        allPages.addAll(other.pages);
        Set<String> allInPercent = new TreeSet<>(inPercent);
        allInPercent.addAll(other.inPercent);
        return new FileSummary(file, records + other.records, readings + other.readings, RecordSource.unread(unread, other.unread), allNotes, allUnknown, allMet, allMemory, allPages, allInPercent,
            likelyEncoding == null ? other.likelyEncoding : likelyEncoding);
    }

    /** Whether every record of it was reached, and one of them gave a reading. */
    public boolean isReadToTheEnd() {
        return isRead() && unread == null;
    }

    /** Whether it gave a reading; a file that did not is refused, and one of {@link #problems} says so. */
    public boolean isRead() {
        return readings > 0;
    }

    /** Those of the whole file; those of its records were told one by one. */
    public List<Problem> problems(FieldMapping mapping) {
        List<Problem> problems = new ArrayList<>(notes);
        SourcePlace place = SourcePlace.wholeFile(file);
        unknownFields.forEach((name, count) -> problems.add(Problem.of(Headings.isGarbled(name) ? Finding.UNKNOWN_FIELD_GARBLED : Finding.UNKNOWN_FIELD, place, "")
            .with(Fact.TEXT, name).with(Fact.COUNT, count).with(Fact.FORMAT, Headings.isGarbled(name) ? likelyEncoding : null)));
        if (records > 0) {
            mapping.notMet(namesMet).forEach((field, heading) -> problems.add(absent(field, heading, place, mapping.notUsed(namesMet))));
        }
        if (isRead() && unread != null) {
            problems.add(Problem.of(Finding.READ_IN_PART, place, "").with(Fact.UNREAD, unread));
        }
        MemoryUnitCheck.problem(memoryBytes, readings, mapping, place).ifPresent(problems::add);
        if (!isRead() && problems.stream().noneMatch(problem -> problem.kind().effect() == Effect.FILE_REFUSED)) {
            problems.add(Problem.of(records == 0 ? Finding.NO_RECORD : records == 1 ? Finding.ONLY_RECORD_REFUSED : Finding.ALL_RECORDS_REFUSED, place, "")
                .with(Fact.COUNT, records).with(Fact.UNREAD, unread));
        }
        return mapping.pseudonyms().problems(problems);
    }

    /** Of a mapped field that no record has a value for. */
    private Problem absent(String field, String heading, SourcePlace place, List<String> notUsed) {
        Problem problem = Problem.of(Finding.MAPPED_FIELD_ABSENT, place, "").about(List.of(new MappedField(field, heading, null)));
        Optional<String> garbled = namesMet.stream().filter(name -> Headings.isGarbled(name, heading)).findFirst();
        String near = Headings.nearest(heading, namesMet);
        return garbled.isPresent() ? Problem.of(Finding.MAPPED_FIELD_GARBLED, place, "").about(problem.fields()).with(Fact.TEXT, Headings.quoted(garbled.get())).with(Fact.FORMAT, likelyEncoding)
            : problem.with(Fact.NEAR, near).with(Fact.NOT_USED, near != null ? null : notUsed.stream().limit(MOST_NOT_USED + 1).map(Headings::quoted).toList())
                .with(Fact.MET, Headings.listed(namesMet));
    }
}
