package org.wearledger.intake;

import java.util.Collection;
import java.util.Optional;
import java.util.function.LongPredicate;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * Whether the sizes of memory of a file look as if they were written in powers of two and read in powers of ten: memory is made
 * in the former, and neither 8 GB nor 8192 MB are a size of it, but 8 GiB are.
 */
final class MemoryUnitCheck {
    private static final String FIELD = ReportField.MEMORY_BYTES.dotted();
    private static final long MEGABYTE = 1_000_000;
    private static final long GIGABYTE = 1_000_000_000;
    private static final long GIBIBYTE = 1L << 30;
    private static final long MIB_PER_GIB = 1024;
    /** One machine may have an odd size. */
    private static final int FEWEST_READINGS = 2;

    private MemoryUnitCheck() {
    }

    /**
     * Empty when they do not.
     *
     * @param mapping says under what heading and in what unit the sizes are written
     */
    static Optional<Problem> problem(Collection<Long> bytes, long readings, FieldMapping mapping, SourcePlace file) {
        if (bytes.isEmpty()) {
            return Optional.empty();
        }
        long least = bytes.stream().min(Long::compare).orElseThrow();
        if (all(bytes, size -> size % GIGABYTE == 0 && size % GIBIBYTE != 0)) {
            // Only what is written as GB becomes right by another unit in the mapping.
            String unit = mapping.unit(FIELD, "bytes");
            return Optional.of(Problem.of(unit.equals("GB") ? Finding.MEMORY_IN_GB : Finding.MEMORY_IN_GIGABYTES, file, "").about(mapping.mapped(FIELD))
                .with(Fact.GIGABYTES, least / GIGABYTE).with(Fact.UNIT, unit).with(Fact.VALUE, FieldUnits.inUnit(least, unit))
                .with(Fact.MEBIBYTES, least / GIGABYTE * MIB_PER_GIB).with(Fact.BYTES, least / GIGABYTE * GIBIBYTE));
        }
        return readings >= FEWEST_READINGS && all(bytes, size -> size % (MIB_PER_GIB * MEGABYTE) == 0)
            ? Optional.of(Problem.of(Finding.MEMORY_OF_1024_MEGABYTES, file, "").about(mapping.mapped(FIELD)).with(Fact.VALUE, least / MEGABYTE)
                .with(Fact.GIGABYTES, least / MEGABYTE / MIB_PER_GIB)) : Optional.empty();
    }

    private static boolean all(Collection<Long> bytes, LongPredicate looksSo) {
        return bytes.stream().allMatch(size -> size > 0 && looksSo.test(size));
    }
}
