package org.wearledger.assess;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.stats.Drift;
import org.wearledger.stats.Quartiles;

/**
 * How far all drives of a fleet speed up or slow down together from one quarter to the next.
 *
 * <p>One reading a quarter counts, the last, and those up to two quarters apart are neighbours: monthly sweeps and half-yearly ones tell as well. For each
 * pair of neighbouring steps, the median over drives of the change in log write rate. Its square less that of its
 * own standard error (1.2533 x interquartile range / 1.349 / sqrt(n), for a median), over the variance that such steps have for a walk of variance
 * 1 a quarter, is what the pair says of the variance; pairs
 * of fewer than 10 drives say nothing. Their mean is joined with 0.2 squared, the stated default, which counts as four pairs.
 *
 * @param sigma standard deviation of the shock, per quarter
 * @param pairs how many were seen
 */
public record CommonShock(double sigma, int pairs) {
    static final double DEFAULT_SIGMA = 0.2;
    private static final int DEFAULT_WEIGHT = 4;
    private static final int LEAST_DRIVES = 10;
    private static final int MOST_QUARTERS = 2;
    private static final double MOST_OFF = 0.5;
    private static final Drift UNIT = new Drift(1);
    private static final double ERROR_OF_MEDIAN = 1.2533 / 1.349;

    /** The shock of this fleet; 0.2 and no pairs for an empty one. The order of the drives changes no digit. */
    public static CommonShock of(Collection<WearPast> fleet) {
        Map<Integer, List<Change>> changes = new TreeMap<>();
        fleet.forEach(drive -> add(drive, changes));
        double sum = DEFAULT_WEIGHT * DEFAULT_SIGMA * DEFAULT_SIGMA;
        int pairs = 0;
        for (List<Change> pair : changes.values()) {
            if (pair.size() >= LEAST_DRIVES) {
                Quartiles spread = Quartiles.of(pair.stream().mapToDouble(Change::ofLog).toArray());
                double error = ERROR_OF_MEDIAN * (spread.upper() - spread.lower()) / Math.sqrt(pair.size());
                double unit = Quartiles.of(pair.stream().mapToDouble(Change::unitVariance).toArray()).median();
                sum += (spread.median() * spread.median() - error * error) / unit;
                pairs++;
            }
        }
        return new CommonShock(Math.sqrt(Math.max(0, sum) / (DEFAULT_WEIGHT + pairs)), pairs);
    }

    /** Of a drive's log rate from one step to the next, and its variance for a walk of variance 1 a quarter. */
    private record Change(double ofLog, double unitVariance) {
    }

    private static void add(WearPast drive, Map<Integer, List<Change>> changes) {
        TreeMap<Integer, Integer> lastOfQuarter = new TreeMap<>();
        for (int i = 0; i < drive.wear().length; i++) {
            lastOfQuarter.put(WearPast.calendarQuarter(drive.atMillis()[i]), i);
        }
        double rateBefore = Double.NaN;
        int stepBefore = 0;
        Map.Entry<Integer, Integer> from = null;
        for (Map.Entry<Integer, Integer> to : lastOfQuarter.entrySet()) {
            if (from != null) {
                int step = to.getKey() - from.getKey();
                double quarters = WearPast.quarters(drive.atMillis()[from.getValue()], drive.atMillis()[to.getValue()]);
                double rate = (drive.wear()[to.getValue()] - drive.wear()[from.getValue()]) / quarters;
                boolean usable = step <= MOST_QUARTERS && Math.abs(quarters - step) <= MOST_OFF && rate > 0;
                if (usable && rateBefore > 0) {
                    changes.computeIfAbsent(to.getKey(), q -> new ArrayList<>()).add(new Change(Math.log(rate / rateBefore),
                        UNIT.varianceOverHorizon(step) + UNIT.varianceSinceMeanOver(stepBefore)));
                }
                rateBefore = usable ? rate : Double.NaN;
                stepBefore = step;
            }
            from = to;
        }
    }
}
