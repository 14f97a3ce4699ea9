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
record DoubtfulMemory(String found, String unit) {
    private static final long MEGABYTE = 1_000_000;
    private static final long GIGABYTE = 1_000_000_000;
    private static final long GIBIBYTE = 1L << 30;
    private static final long MIB_PER_GIB = 1024;
    /** One machine may have an odd size. */
    private static final int FEWEST_READINGS = 2;

    /**
     * Empty when they do not.
     *
     * @param from names their heading, for the sentence; may be empty
     */
    static Optional<DoubtfulMemory> of(Collection<Long> bytes, long readings, String from) {
        if (bytes.isEmpty()) {
            return Optional.empty();
        }
        long least = bytes.stream().min(Long::compare).orElseThrow();
        if (all(bytes, size -> size % GIGABYTE == 0 && size % GIBIBYTE != 0)) {
            return Optional.of(new DoubtfulMemory("every memory size" + from + " is a whole number of GB and none of GiB, such as " + least / GIGABYTE
                + " GB: is GiB meant?", "GiB"));
        }
        if (readings >= FEWEST_READINGS && all(bytes, size -> size % (MIB_PER_GIB * MEGABYTE) == 0)) {
            long megabytes = least / MEGABYTE;
            return Optional.of(new DoubtfulMemory("every memory size" + from + " is a whole multiple of 1024 MB, such as " + megabytes + " MB, and "
                + megabytes + " MiB are " + megabytes / MIB_PER_GIB + " GiB: is MiB meant?", "MiB"));
        }
        return Optional.empty();
    }

    private static boolean all(Collection<Long> bytes, LongPredicate looksSo) {
        return bytes.stream().allMatch(size -> size > 0 && looksSo.test(size));
    }

    Problem problem(SourcePlace file) {
        return new Problem(ProblemKind.MEMORY_UNIT_DOUBTFUL, file, "", found, "sizes in " + unit + ", in powers of two, as memory is made",
            "map it with the unit " + unit + "; the sizes are used as they stand");
    }
}
