package org.wearledger.assess;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Health;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.Interval;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.CensoredNormal;
import org.wearledger.stats.RandomEffects.Estimate;

/**
 * What drives of one model endure, by the writes that a point of the controller's percentage takes: hardly touched by who uses the machine. The
 * percentage is a whole number, so each drive gives bounds: 100 % consumed at 20 % used lasts 100/21 to 100/19 times its rating. A drive at 0 % says only
 * that it lasts longer than what it has written. Controllers round up, or down; the estimate lies half-way, and the interval covers both.
 */
final class ImpliedRatings {
    /** Drives of a model that have used this much, without which nothing is said. */
    private static final int LEAST_DRIVES = 5;
    private static final int LEAST_USED_PERCENT = 2;
    /** Of the logarithm: no two drives of a model, nor two users, are quite alike. */
    private static final double LEAST_DEVIATION = 0.1;
    /** More of one model add nothing to see; these are spread evenly over their ids. */
    private static final int MOST_DRIVES = 500;

    private ImpliedRatings() {
    }

    /**
     * For models of enough drives; drives whose counters went back are left out.
     *
     * @param drives of each model, in the order of their ids
     */
    static Map<String, ImpliedRating> of(Map<String, List<DriveAssessment>> drives) {
        Map<String, List<DriveAssessment>> telling = new TreeMap<>(drives);
        telling.replaceAll((model, own) -> some(own.stream().filter(ImpliedRatings::tells).toList()));
        telling.values().removeIf(own -> own.stream().filter(ImpliedRatings::isBounded).count() < LEAST_DRIVES);
        if (telling.isEmpty()) {
            return Map.of();
        }
        Map<String, Estimate> roundedDown = means(telling, 0, 1);
        Map<String, Estimate> roundedUp = means(telling, -1, 0);
        Map<String, ImpliedRating> found = new HashMap<>();
        telling.forEach((model, own) -> {
            Estimate least = roundedDown.get(model);
            Estimate most = roundedUp.get(model);
            found.put(model, new ImpliedRating(own.size(), usual(own), Math.exp((least.mean() + most.mean()) / 2),
                new Interval(Math.exp(least.bounds95().low()), Math.exp(most.bounds95().high()))));
        });
        return found;
    }

    private static boolean tells(DriveAssessment drive) {
        return drive.seen().epochs() == 1 && drive.percentageUsed() != null && drive.wear().consumedPercent() != null && drive.wear().consumedPercent() > 0;
    }

    private static boolean isBounded(DriveAssessment drive) {
        return drive.percentageUsed() >= LEAST_USED_PERCENT && !Health.isUsedOpenAbove(drive.percentageUsed());
    }

    private static List<DriveAssessment> some(List<DriveAssessment> drives) {
        int stride = (drives.size() + MOST_DRIVES - 1) / MOST_DRIVES;
        return IntStream.range(0, drives.size()).filter(i -> i % stride == 0).mapToObj(drives::get).toList();
    }

    private static Map<String, Estimate> means(Map<String, List<DriveAssessment>> drives, int below, int above) {
        Map<String, List<Bounds>> bounds = new TreeMap<>();
        drives.forEach((model, own) -> bounds.put(model, own.stream().map(drive -> bounds(drive, below, above)).toList()));
        return CensoredNormal.of(bounds, LEAST_DEVIATION).means();
    }

    /** Of the logarithm of endurance over rating, when the true percentage lies from {@code below} to {@code above} of the reported. */
    private static Bounds bounds(DriveAssessment drive, int below, int above) {
        int used = drive.percentageUsed();
        double consumed = drive.wear().consumedPercent();
        return new Bounds(Health.isUsedOpenAbove(used) ? Double.NEGATIVE_INFINITY : Math.log(consumed / Math.max(1, used + above)),
            used + below <= 0 ? Double.POSITIVE_INFINITY : Math.log(consumed / (used + below)));
    }

    /** The rating that most have; of several the smallest. */
    private static Endurance usual(List<DriveAssessment> drives) {
        Map<Endurance, Long> counts = drives.stream().collect(Collectors.groupingBy(drive -> drive.wear().endurance(), Collectors.counting()));
        return counts.entrySet().stream().max(Map.Entry.<Endurance, Long>comparingByValue().thenComparing(each -> each.getKey().ratedTerabytesWritten(), Comparator.reverseOrder())
            .thenComparing(each -> each.getKey().source())).orElseThrow().getKey();
    }
}
