package org.wearledger.intake;

import java.util.Collection;
import java.util.Optional;
import java.util.function.LongPredicate;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * The sizes of memory of a file, when all of them look as if they were given in powers of two and read in powers of ten: memory is made
 * in the former, and neither 8 GB nor 8192 MB are a size of it, but 8 GiB are.
 */
record DoubtfulMemory(String found, String expected, String remedy) {
    private static final String FIELD = "machine.memoryBytes";
    private static final String EXPECTED = "in powers of two, as memory is made";
    private static final long MEGABYTE = 1_000_000;
    private static final long GIGABYTE = 1_000_000_000;
    private static final long GIBIBYTE = 1L << 30;
    private static final long MIB_PER_GIB = 1024;
    /** One machine may have an odd size. */
    private static final int FEWEST_READINGS = 2;

    /**
     * Empty when they do not.
     *
     * @param mapping says under what heading and in what unit the sizes are written
     */
    static Optional<DoubtfulMemory> of(Collection<Long> bytes, long readings, FieldMapping mapping) {
        if (bytes.isEmpty()) {
            return Optional.empty();
        }
        long least = bytes.stream().min(Long::compare).orElseThrow();
        String every = "every memory size" + mapping.from(FIELD);
        if (all(bytes, size -> size % GIGABYTE == 0 && size % GIBIBYTE != 0)) {
            return Optional.of(wholeGigabytes(every + " is a whole number of GB and none of GiB, such as ", least, mapping.unit(FIELD, "bytes")));
        }
        if (readings >= FEWEST_READINGS && all(bytes, size -> size % (MIB_PER_GIB * MEGABYTE) == 0)) {
            long megabytes = least / MEGABYTE;
            return Optional.of(new DoubtfulMemory(every + " is a whole multiple of 1024 MB, such as " + megabytes + " MB, and "
                + megabytes + " MiB are " + megabytes / MIB_PER_GIB + " GiB: is MiB meant?", "sizes in MiB, " + EXPECTED, "map it with the unit MiB"));
        }
        return Optional.empty();
    }

    /** Only what is written as GB becomes right by another unit in the mapping. */
    private static DoubtfulMemory wholeGigabytes(String found, long bytes, String unit) {
        long gigabytes = bytes / GIGABYTE;
        return unit.equals("GB") ? new DoubtfulMemory(found + gigabytes + " GB: is GiB meant?", "sizes in GiB, " + EXPECTED, "map it with the unit GiB")
            : new DoubtfulMemory(found + FieldUnits.inUnit(bytes, unit) + " " + unit + ", which are " + gigabytes + " GB: are " + gigabytes + " GiB meant?",
                "sizes " + EXPECTED, "correct the export: " + gigabytes + " GiB are " + gigabytes * MIB_PER_GIB + " MiB, " + gigabytes * GIBIBYTE + " bytes");
    }

    private static boolean all(Collection<Long> bytes, LongPredicate looksSo) {
        return bytes.stream().allMatch(size -> size > 0 && looksSo.test(size));
    }

    Problem problem(SourcePlace file) {
        return new Problem(ProblemKind.MEMORY_UNIT_DOUBTFUL, file, "", found, expected, remedy + "; the sizes are used as they stand");
    }
}
