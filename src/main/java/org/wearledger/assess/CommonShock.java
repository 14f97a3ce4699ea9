package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.stats.Quartiles;

/**
 * How far all drives of a fleet speed up or slow down together from one quarter to the next.
 *
 * <p>For each pair of neighbouring quarters, the median over drives of the change in log write rate. Its square less that of its
 * own standard error (1.2533 x interquartile range / 1.349 / sqrt(n), for a median) is what the pair says of the variance; pairs
 * of fewer than 10 drives say nothing. Their mean is joined with 0.2 squared, the stated default, which counts as four pairs.
 *
 * @param sigma standard deviation of the shock, per quarter
 * @param pairs how many were seen
 */
public record CommonShock(double sigma, int pairs) {
    static final double DEFAULT_SIGMA = 0.2;
    private static final int DEFAULT_WEIGHT = 4;
    private static final int LEAST_DRIVES = 10;
    private static final double LEAST_QUARTERS = 0.5;
    private static final double MOST_QUARTERS = 1.5;
    private static final double ERROR_OF_MEDIAN = 1.2533 / 1.349;

    /** The shock of this fleet; 0.2 and no pairs for an empty one. The order of the drives changes no digit. */
    public static CommonShock of(Collection<WearPast> fleet) {
        Map<Integer, List<Double>> changes = new TreeMap<>();
        fleet.forEach(drive -> add(drive, changes));
        double sum = DEFAULT_WEIGHT * DEFAULT_SIGMA * DEFAULT_SIGMA;
        int pairs = 0;
        for (List<Double> pair : changes.values()) {
            if (pair.size() >= LEAST_DRIVES) {
                Quartiles spread = Quartiles.of(pair.stream().mapToDouble(Double::doubleValue).toArray());
                double error = ERROR_OF_MEDIAN * (spread.upper() - spread.lower()) / Math.sqrt(pair.size());
                sum += spread.median() * spread.median() - error * error;
                pairs++;
            }
        }
        return new CommonShock(Math.sqrt(Math.max(0, sum) / (DEFAULT_WEIGHT + pairs)), pairs);
    }

    private static void add(WearPast drive, Map<Integer, List<Double>> changes) {
        double rateBefore = Double.NaN;
        for (int i = 1; i < drive.wear().length; i++) {
            double quarters = WearPast.quarters(drive.atMillis()[i - 1], drive.atMillis()[i]);
            double rate = (drive.wear()[i] - drive.wear()[i - 1]) / quarters;
            boolean usable = quarters >= LEAST_QUARTERS && quarters <= MOST_QUARTERS && rate > 0;
            if (usable && rateBefore > 0) {
                changes.computeIfAbsent(quarterOf(drive.atMillis()[i]), q -> new ArrayList<>()).add(Math.log(rate / rateBefore));
            }
            rateBefore = usable ? rate : Double.NaN;
        }
    }

    private static int quarterOf(long millis) {
        LocalDate day = LocalDate.ofInstant(Instant.ofEpochMilli(millis), ZoneOffset.UTC);
        return 4 * day.getYear() + (day.getMonthValue() - 1) / 3;
    }
}
