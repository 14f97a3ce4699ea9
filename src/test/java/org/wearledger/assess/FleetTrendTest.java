package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.Limits;
import org.wearledger.history.Sample;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Endurance;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.TrendQuarter;

class FleetTrendTest {
    private static final LocalDate AS_OF = LocalDate.parse("2024-12-20");
    private static final Endurance OF_100_TB = new Endurance(new BigDecimal("100"), false, null, "data sheet");

    /** Each reading: its day and the terabytes written, which are percents of the rating. */
    private static DriveHistory drive(String machine, String... readings) {
        return DriveHistories.build(Sample.ID, Arrays.stream(readings).map(words -> words.split(" "))
            .map(word -> Sample.at(word[0]).terabytes(Long.parseLong(word[1])).machine(machine).reading()).toList(), new Limits(Instant.parse("2025-01-02T00:00:00Z"), null)).history();
    }

    private static FleetTrend trend() {
        return new FleetTrend(AS_OF, 45);
    }

    private static TrendQuarter quarter(String from, long drives, double median, double ninetieth, int past) {
        return new TrendQuarter(LocalDate.parse(from), drives, median, ninetieth, past);
    }

    /** R: {@code quantile(c(40, 60, 105), c(.5, .9), type = 7)} is 60 and 96; of 20 and 55, 37.5 and 51.5. */
    @Test
    void theLatestReadingOfEachDriveUpToTheQuartersEndCounts() {
        FleetTrend trend = trend();
        trend.add(drive("PC-1", "2024-07-01 10", "2024-09-30 20", "2024-12-01 40"), OF_100_TB, true);
        trend.add(drive("PC-2", "2024-09-15 55", "2024-12-01 60"), OF_100_TB, true);
        trend.add(drive("PC-3", "2024-11-15 105"), OF_100_TB, true);
        assertThat(trend.quarters()).containsExactly(quarter("2024-07-01", 2, 37.5, 51.5, 0), quarter("2024-10-01", 3, 60, 96, 1));
    }

    @Test
    void aQuarterWithoutAReportLeavesNoGap() {
        FleetTrend trend = trend();
        trend.add(drive("PC-1", "2024-03-31 10", "2024-12-01 40"), OF_100_TB, true);
        assertThat(trend.quarters()).extracting(TrendQuarter::medianConsumedPercent).containsExactly(10.0, 10.0, 10.0, 40.0);
    }

    /** Read on 30 September and as of 1 October: the new quarter has begun, and the fleet is still there. */
    @Test
    void inTheQuarterOfTheAsOfDateThoseCountThatWereReadRecently() {
        FleetTrend trend = new FleetTrend(LocalDate.parse("2024-10-01"), 45);
        trend.add(drive("PC-1", "2024-09-30 10"), OF_100_TB, true);
        trend.add(drive("PC-2", "2024-07-01 20"), OF_100_TB, true);
        assertThat(trend.quarters()).extracting(TrendQuarter::drives).containsExactly(2L, 1L);
    }

    @Test
    void aDriveThatWasReplacedCountsUntilTheQuarterBefore() {
        FleetTrend trend = trend();
        trend.add(drive("PC-1", "2024-09-30 120", "2024-10-05 121"), OF_100_TB, false);
        assertThat(trend.quarters()).containsExactly(quarter("2024-07-01", 1, 120, 120, 1));
    }

    @Test
    void twoDrivesOfOneMachineAreOneMachinePastItsRating() {
        FleetTrend trend = trend();
        trend.add(drive("PC-1", "2024-12-01 120"), OF_100_TB, true);
        trend.add(drive("pc-1", "2024-12-01 130"), OF_100_TB, true);
        assertThat(trend.quarters()).containsExactly(quarter("2024-10-01", 2, 125, 129, 1));
    }

    @Test
    void aDriveWithoutARatingCountsByItsControllerAlone() {
        DriveHistory bare = drive("PC-1", "2024-12-01 120");
        FleetTrend trend = trend();
        trend.add(bare, null, true);
        assertThat(trend.quarters()).containsExactly(new TrendQuarter(LocalDate.parse("2024-10-01"), 0, null, null, 0));
        HistoryPoint point = bare.latest();
        FleetTrend used = trend();
        used.add(new DriveHistory(bare.id(), List.of(new HistoryPoint(Sample.at("2024-12-01").used(100).machine("PC-1").reading(), point.epoch(), null))), null, true);
        assertThat(used.quarters()).containsExactly(new TrendQuarter(LocalDate.parse("2024-10-01"), 0, null, null, 1));
    }

    @Test
    void sharesOfTheFleetAddUp() {
        FleetTrend whole = trend();
        FleetTrend sum = trend();
        for (DriveHistory drive : List.of(drive("PC-1", "2024-07-01 10", "2024-12-01 40"), drive("PC-2", "2024-07-01 99", "2024-12-01 101"), drive("PC-2", "2024-12-01 150"))) {
            whole.add(drive, OF_100_TB, true);
            FleetTrend share = trend();
            share.add(drive, OF_100_TB, true);
            sum.add(share);
        }
        assertThat(sum.quarters()).isEqualTo(whole.quarters());
        assertThat(whole.quarters()).extracting(TrendQuarter::machinesPastRating).containsExactly(0, 1);
    }
}
