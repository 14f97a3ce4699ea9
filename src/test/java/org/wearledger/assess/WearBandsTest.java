package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.history.Sample;
import org.wearledger.model.BandPoint;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Forecast;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.stats.RateBelief;

class WearBandsTest {
    private static final FleetModel STEADY = new FleetModel(2.5, 3, 0.03, 0, false, 100, 0, 4);
    private static final RateBelief BELIEF = new RateBelief(8, 0.18);

    private static DriveAssessment drive(Double consumedPercent, Forecast forecast) {
        return new DriveAssessment(Sample.ID, Sample.at("2025-01-01").reading(),
            new DriveAssessment.Seen(null, Instant.EPOCH, 2, 1),
            new DriveAssessment.Wear(BigInteger.ONE, null, consumedPercent, null, null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(new Projection.None("-"), forecast, null), Standing.WATCH, "");
    }

    private static Forecast forecast() {
        return new Forecast(null, null, null, 0, 0, 0, 0, 0, LocalDate.MAX, "test",
            new Crossing(BELIEF.shape(), BELIEF.rate(), List.of(0.6), Instant.parse("2025-01-01T12:00:00Z")));
    }

    /** Two years by half quarters; what is written by then lies below each line with its chance, by the process's closed form. */
    @Test
    void eachLineHoldsWithItsChance() {
        List<BandPoint> band = WearBands.of(drive(40.0, forecast()), STEADY);
        assertThat(band).hasSize(17);
        assertThat(band.get(0)).isEqualTo(new BandPoint(LocalDate.of(2025, 1, 1), 40, 40, 40));
        assertThat(band.get(8).on()).as("four mean quarters are 365.25 days").isEqualTo("2026-01-01");
        assertThat(band.get(16).on()).isEqualTo("2027-01-02");
        for (int i = 1; i < band.size(); i++) {
            assertThat(List.of(chance(band.get(i).lowPercent(), i), chance(band.get(i).middlePercent(), i), chance(band.get(i).highPercent(), i)))
                .usingElementComparator((a, b) -> Math.abs(a - b) < 1e-9 ? 0 : Double.compare(a, b)).containsExactly(0.1, 0.5, 0.9);
        }
    }

    private static double chance(double percent, int halfQuarters) {
        return 1 - BELIEF.probabilityOfReaching(STEADY.shapePerQuarter(), halfQuarters / 2.0, (percent - 40) / 100);
    }

    @Test
    void aRateThatWandersWidensTheBand() {
        FleetModel wandering = new FleetModel(2.5, 3, 0.03, 0.3, false, 100, 0, 4);
        assertThat(width(wandering)).isGreaterThan(1.1 * width(STEADY));
    }

    private static double width(FleetModel fleet) {
        BandPoint last = WearBands.of(drive(40.0, forecast()), fleet).get(16);
        return last.highPercent() - last.lowPercent();
    }

    @Test
    void withoutAForecastThereIsNone() {
        assertThat(WearBands.of(drive(40.0, forecast()), null)).isEmpty();
        assertThat(WearBands.of(drive(40.0, null), STEADY)).isEmpty();
        assertThat(WearBands.of(drive(null, forecast()), STEADY)).isEmpty();
    }
}
