package org.wearledger.intake;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * What is to be said of a file as a whole, from the part of it that was read, and added up over its parts.
 *
 * @param notes what was noted, or why the file was refused, before its first record
 * @param unknownFields name of a field that the report form does not have, and in how many records it stood
 * @param memoryBytes the sizes of memory that its readings give, each once
 * @param namesMet of a mapped file, the names that its records have; empty for any other
 */
public record FileSummary(String file, long records, long readings, List<Problem> notes, Map<String, Long> unknownFields, Set<String> namesMet,
                          Set<Long> memoryBytes)
    implements Serializable {
    private static final long BYTES_PER_GIGABYTE = 1_000_000_000;
    private static final long BYTES_PER_GIBIBYTE = 1L << 30;
    private static final int MOST_QUOTED = 120;

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
        return new FileSummary(file, records + other.records, readings + other.readings, allNotes, allUnknown, allMet, allMemory);
    }

    /** Whether it gave a reading; a file that did not is refused, and one of {@link #problems} says so. */
    public boolean isRead() {
        return readings > 0;
    }

    /** Those of the whole file; those of its records were told one by one. */
    public List<Problem> problems(FieldMapping mapping) {
        List<Problem> problems = new ArrayList<>(notes);
        SourcePlace place = SourcePlace.wholeFile(file);
        unknownFields.forEach((name, count) -> problems.add(new Problem(ProblemKind.FIELD_UNKNOWN, place, "",
            "unknown field " + name + " in " + count + " record(s)", "the names in schemas/csv-columns.md", "the field is not used; check its spelling")));
        for (String absent : records == 0 ? List.<String>of() : mapping.notMet(namesMet)) {
            problems.add(new Problem(ProblemKind.MAPPED_FIELD_ABSENT, place, "", "no record has a value for \"" + absent
                + "\", which the mapping names; they have " + Headings.listed(namesMet) + Headings.near(absent, namesMet), "a heading or pointer of this file",
                "correct the mapping, or leave the field out of it"));
        }
        if (!memoryBytes.isEmpty() && memoryBytes.stream().allMatch(bytes -> bytes > 0 && bytes % BYTES_PER_GIGABYTE == 0 && bytes % BYTES_PER_GIBIBYTE != 0)) {
            problems.add(new Problem(ProblemKind.MEMORY_UNIT_DOUBTFUL, place, "", "every memory size is a whole number of GB and none of GiB, such as "
                + memoryBytes.stream().min(Long::compare).orElseThrow() + " bytes", "sizes in GiB, of 1,073,741,824 bytes, as memory is made",
                "map it as GiB; the sizes are used as they stand"));
        }
        if (!isRead() && problems.stream().noneMatch(problem -> problem.kind().effect() == org.wearledger.model.Effect.FILE_REFUSED)) {
            problems.add(new Problem(ProblemKind.FILE_HAS_NO_READING, place, "", "none of its " + records + " record(s) gave a reading",
                "at least one usable report", "see the problems of its records"));
        }
        return mapping.pseudonyms().problems(problems);
    }

    static String quoted(String text) {
        return quoted(text, MOST_QUOTED);
    }

    static String quoted(String text, int most) {
        String printable = text.replaceAll("[\\p{Cntrl}\\p{Cf}\uFFFD]", "?");
        return printable.length() <= most ? printable : printable.substring(0, most) + "...";
    }
}
