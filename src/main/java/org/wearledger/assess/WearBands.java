package org.wearledger.assess;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.BandPoint;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.FleetModel;
import org.wearledger.stats.Drift;
import org.wearledger.stats.RateBelief;

/** Where a drive's writes go from its latest reading on. */
public final class WearBands {
    private static final double STEP_QUARTERS = 0.5;
    private static final int STEPS = 16;

    private WearBands() {
    }

    /**
     * Two years ahead, by half quarters; the first point is the latest reading. Empty when the rating is not forecast: it is
     * passed, or not known, or the method is the straight line.
     */
    public static List<BandPoint> of(DriveAssessment drive, FleetModel fleet) {
        if (fleet == null || drive.outlook().ratingForecast() == null || drive.wear().consumedPercent() == null) {
            return List.of();
        }
        Crossing crossing = drive.outlook().ratingForecast().crossing();
        RateBelief belief = new RateBelief(crossing.beliefShape(), crossing.beliefRate());
        Drift drift = new Drift(fleet.driftPerQuarter());
        double now = drive.wear().consumedPercent();
        List<BandPoint> band = new ArrayList<>();
        band.add(new BandPoint(day(crossing, 0), now, now, now));
        for (int i = 1; i <= STEPS; i++) {
            double quarters = i * STEP_QUARTERS;
            RateBelief ahead = drift.ahead(belief, quarters);
            band.add(new BandPoint(day(crossing, quarters), now + percent(ahead, fleet, quarters, 0.1), now + percent(ahead, fleet, quarters, 0.5),
                now + percent(ahead, fleet, quarters, 0.9)));
        }
        return band;
    }

    private static double percent(RateBelief ahead, FleetModel fleet, double quarters, double p) {
        return 100 * ahead.quantile(fleet.shapePerQuarter(), quarters, p);
    }

    private static LocalDate day(Crossing crossing, double quarters) {
        return LocalDate.ofInstant(crossing.readAt().plusMillis(Math.round(quarters * WearPast.MILLIS_PER_QUARTER)), ZoneOffset.UTC);
    }
}
