package org.wearledger.assess;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.Rating;

/** The makers' ratings by drive model and capacity, and what stands in where there is none. */
public final class Ratings implements Serializable {
    /**
     * Common practice for client drives with three bits a cell, no specification: 0.6 TB written per GB of capacity.
     * Examples: 250 GB is 150 TB, 500 GB is 300 TB, 1000 GB is 600 TB.
     */
    public static final BigDecimal ASSUMED_TERABYTES_PER_GIGABYTE = new BigDecimal("0.6");

    private static final String ASSUMED_SOURCE = "assumed: 0.6 TB written per GB of capacity (common practice)";
    private static final BigDecimal CAPACITY_TOLERANCE = new BigDecimal("0.01");

    /** 240 and 256 GB, both sold, lie as far apart as GiB and GB but for 0.7 %. */
    private static final double UNIT_TOLERANCE = 0.003;
    /** GiB for GB, TiB for TB, and a unit a thousand times larger, decimal or binary. */
    private static final List<Double> UNIT_RATIOS = List.of(1.073741824, 1.099511627776, 1000.0, 1024.0, 953.67, 1073.74);

    private final HashMap<String, ArrayList<Rating>> byModel = new HashMap<>();

    private Ratings() {
    }

    /** The table of these rows, in any order; empty for none, and then every rating is assumed. */
    public static Ratings of(Collection<Rating> rows) {
        Ratings ratings = new Ratings();
        rows.stream()
            .sorted(Comparator.comparing(Rating::nominalCapacityGigabytes)
                .thenComparing(Rating::ratedTerabytesWritten).thenComparing(Rating::source))
            .forEach(row -> ratings.byModel
                .computeIfAbsent(DriveId.fold(row.driveModel()), model -> new ArrayList<>()).add(row));
        return ratings;
    }

    /**
     * The row of the drive's model whose nominal capacity is nearest and within 1 % of the drive's, or the model's only
     * row when the drive does not report a capacity; else 0.6 TB per whole decimal GB. {@code null} when neither a row
     * nor a capacity is known.
     */
    Endurance enduranceFor(Drive drive) {
        List<Rating> rows = byModel.getOrDefault(DriveId.fold(drive.model()), new ArrayList<>());
        if (drive.capacityBytes() == null) {
            return rows.size() == 1 ? rated(rows.get(0)) : null;
        }
        BigDecimal gigabytes = gigabytes(drive.capacityBytes());
        return rows.stream()
            .filter(row -> fits(row, gigabytes))
            .min(Comparator.comparing(row -> offset(row, gigabytes)))
            .map(Ratings::rated)
            .orElseGet(() -> assumed(gigabytes));
    }

    /**
     * A row of the drive's model that the drive's capacity misses by the ratio of two units, 1,000 or 1,024 or their powers: then the
     * capacity is in a wrong unit. {@code null} when a row fits, or none is missed so.
     */
    Rating missedByUnit(Drive drive) {
        List<Rating> rows = byModel.getOrDefault(DriveId.fold(drive.model()), new ArrayList<>());
        if (drive.capacityBytes() == null || rows.stream().anyMatch(row -> fits(row, gigabytes(drive.capacityBytes())))) {
            return null;
        }
        double gigabytes = gigabytes(drive.capacityBytes()).doubleValue();
        return rows.stream().filter(row -> isUnitApart(gigabytes / row.nominalCapacityGigabytes().doubleValue())).findFirst().orElse(null);
    }

    private static boolean isUnitApart(double ratio) {
        return UNIT_RATIOS.stream().anyMatch(unit -> isNear(ratio, unit));
    }

    private static boolean isNear(double ratio, double unit) {
        return Math.abs(ratio / unit - 1) <= UNIT_TOLERANCE || Math.abs(ratio * unit - 1) <= UNIT_TOLERANCE;
    }

    static BigDecimal gigabytes(long bytes) {
        return BigDecimal.valueOf(bytes, 9);
    }

    /** By its capacity. */
    static boolean fits(Rating row, BigDecimal gigabytes) {
        return offset(row, gigabytes).compareTo(row.nominalCapacityGigabytes().multiply(CAPACITY_TOLERANCE)) <= 0;
    }

    private static BigDecimal offset(Rating row, BigDecimal gigabytes) {
        return row.nominalCapacityGigabytes().subtract(gigabytes).abs();
    }

    private static Endurance rated(Rating row) {
        String source = row.sourceDate() == null ? row.source() : row.source() + ", " + row.sourceDate();
        return new Endurance(row.ratedTerabytesWritten(), false, row.warrantyYears(), source);
    }

    private static Endurance assumed(BigDecimal gigabytes) {
        BigDecimal whole = gigabytes.setScale(0, RoundingMode.HALF_UP);
        return whole.signum() <= 0 ? null
            : new Endurance(whole.multiply(ASSUMED_TERABYTES_PER_GIGABYTE), true, null, ASSUMED_SOURCE);
    }
}
