package org.wearledger.assess;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.IntStream;
import org.wearledger.history.Sample;
import org.wearledger.model.Crossing;
import org.wearledger.model.Forecast;
import org.wearledger.model.Rating;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.RateBelief;

/**
 * How the forecasts of a scenario's fleets met what came. Ranges are counted for the drives whose middle date lies within ten years;
 * crossings and the Brier score for all drives that had not crossed.
 *
 * @param within80 share of those whose crossing lay between the dates of 10 and 90 %; of 5 and 95 % for {@code within90}
 * @param stated expected crossings within 1, 2, 4 and 8 quarters; {@code real} those that came
 */
record Coverage(String name, int forecast, int drives, double within80, double within90, double early, double late, double[] stated,
                int[] real, double brier) {
    private static final Ratings RATINGS = Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500),
        BigDecimal.valueOf((long) Scenario.RATED), null, "data sheet", null)));
    private static final int[] HORIZONS = {1, 2, 4, 8};

    private record Met(boolean dated, double pit, double[] stated, double crossedAfter) {
    }

    static Coverage of(Scenario scenario, int seeds) {
        List<Met> met = IntStream.range(0, seeds * scenario.fleets).parallel()
            .mapToObj(seed -> met(scenario.draw(scenario.name.hashCode() * 1_000L + seed))).flatMap(List::stream).toList();
        double[] pits = met.stream().filter(Met::dated).mapToDouble(Met::pit).toArray();
        double[] stated = new double[HORIZONS.length];
        int[] real = new int[HORIZONS.length];
        double brier = 0;
        for (Met one : met) {
            for (int h = 0; h < HORIZONS.length; h++) {
                stated[h] += one.stated[h];
                real[h] += one.crossedAfter <= HORIZONS[h] ? 1 : 0;
            }
            brier += Math.pow(one.stated[2] - (one.crossedAfter <= HORIZONS[2] ? 1 : 0), 2);
        }
        return new Coverage(scenario.name, pits.length, met.size(), share(pits, 0.1, 0.9), share(pits, 0.05, 0.95), share(pits, 0, 0.1),
            share(pits, 0.9, 2), stated, real, brier / met.size());
    }

    private static double share(double[] pits, double low, double high) {
        return java.util.Arrays.stream(pits).filter(pit -> pit >= low && pit < high).count() / (double) pits.length;
    }

    private static List<Met> met(List<Scenario.Seen> fleet) {
        WearModel model = WearModel.of(fleet.stream().map(seen -> new DriveAssessor(seen.history(), RATINGS, seen.inServiceOn() != null, seen.inServiceOn()).past())
            .filter(Objects::nonNull).toList());
        List<Met> all = new ArrayList<>();
        for (Scenario.Seen seen : fleet) {
            var drive = new DriveAssessor(seen.history(), RATINGS, seen.inServiceOn() != null, seen.inServiceOn()).assess(model, Scenario.AS_OF, SweepSettings.withDefaults());
            Forecast forecast = drive.percentageUsed() == null ? drive.outlook().ratingForecast() : drive.outlook().controllerForecast();
            if (forecast != null && seen.crossedAfter() > 0) {
                all.add(met(model, forecast, seen.crossedAfter()));
            }
        }
        return all;
    }

    private static Met met(WearModel model, Forecast forecast, double crossedAfter) {
        Crossing crossing = forecast.crossing();
        RateBelief belief = new RateBelief(crossing.beliefShape(), crossing.beliefRate());
        double[] remaining = crossing.remaining().stream().mapToDouble(Double::doubleValue).toArray();
        double[] stated = java.util.Arrays.stream(HORIZONS).mapToDouble(h -> model.probabilityOfReaching(belief, h, remaining)).toArray();
        return new Met(forecast.p50On() != null, model.probabilityOfReaching(belief, Math.min(crossedAfter, Scenario.MONTHS_AHEAD / 3), remaining),
            stated, crossedAfter);
    }

    static String heading() {
        return "| fleet | drives | 80 % hold | 90 % hold | earlier | later | crossings, stated/real | Brier |\n"
            + "| --- | --- | --- | --- | --- | --- | --- | --- |";
    }

    String row() {
        StringBuilder crossings = new StringBuilder();
        for (int h = 0; h < HORIZONS.length; h++) {
            crossings.append(String.format(Locale.ROOT, "%s%.0f/%d", h == 0 ? "" : " ", stated[h], real[h]));
        }
        return String.format(Locale.ROOT, "| %s | %d | %.0f | %.0f | %.0f | %.0f | %s | %.4f |", name, forecast, 100 * within80, 100 * within90, 100 * early, 100 * late,
            crossings, brier);
    }
}
