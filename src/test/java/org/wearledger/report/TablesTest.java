package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.Standing;

class TablesTest {
    @Test
    void machinesCsvHasTheAgreedColumnsInOrder() {
        assertThat(Tables.machines(Sweeps.empty()).columns()).extracting(Column::name).containsExactly("machineId",
            "driveSerial", "driveModel", "collectedAt", "terabytesWritten", "ratedTerabytesWritten", "ratingSource",
            "consumedPercent", "percentageUsed", "gigabytesPerDay", "projectedDate", "standing", "reason",
            "machineStanding", "assetTag", "site", "costCentre", "machineModel", "memoryGibibytes", "attachment",
            "capacityGigabytes", "firmware", "remainingTerabytes", "impliedEnduranceLowTerabytes",
            "impliedEnduranceHighTerabytes", "gigabytesPerDayLately", "gigabytesPerDayOverLife", "driveWritesPerDay",
            "projectionBasis", "readings", "counterEpochs", "lastSeenOn", "reportedThisSweep", "inInventory",
            "nextStep", "projectedEarlyDate", "projectedLateDate", "beyondEvidence", "reachesWithin1QuarterPercent",
            "reachesWithin2QuartersPercent", "reachesWithin4QuartersPercent", "reachesWithin8QuartersPercent", "forecastBasis",
            "controllerEarlyDate", "controllerDate", "controllerLateDate", "controllerWithin1QuarterPercent",
            "controllerWithin2QuartersPercent", "controllerWithin4QuartersPercent", "controllerWithin8QuartersPercent",
            "straightLineDate", "replacementNeedOn", "replacementItem", "replacementUpperItem", "ownership", "user", "refreshOn");
    }

    @Test
    void aDriveIsShownWithItsFigures() {
        Table<MachineRow> table = Tables.machines(Sweeps.small());
        assertThat(value(table, "terabytesWritten", 1)).isEqualTo(new BigDecimal("156.000"));
        assertThat(value(table, "ratedTerabytesWritten", 1)).isEqualTo(new BigDecimal("153.600"));
        assertThat(value(table, "ratingSource", 1)).isEqualTo("assumed: 0.6 TB per GB");
        assertThat(value(table, "ratingSource", 0)).isEqualTo("maker's sheet");
        assertThat(value(table, "consumedPercent", 1)).isEqualTo(new BigDecimal("101.6"));
        assertThat(value(table, "remainingTerabytes", 1)).isEqualTo(new BigDecimal("-2.400"));
        assertThat(value(table, "impliedEnduranceLowTerabytes", 1)).isEqualTo(new BigDecimal("158.5"));
        assertThat(value(table, "impliedEnduranceHighTerabytes", 1)).isNull();
        assertThat(value(table, "gigabytesPerDayLately", 1)).isEqualTo(new BigDecimal("25.13"));
        assertThat(value(table, "projectedDate", 0)).isEqualTo(LocalDate.of(2031, 5, 1));
        assertThat(value(table, "projectedDate", 1)).isNull();
        assertThat(value(table, "attachment", 1)).isEqualTo("soldered");
        assertThat(value(table, "memoryGibibytes", 1)).isEqualTo(new BigDecimal("8.0"));
        assertThat((String) value(table, "nextStep", 1)).endsWith("the board or the machine is replaced");
        assertThat(value(table, "nextStep", 0)).isEqualTo(Standing.WITHIN_RATING.nextStep());
    }

    @Test
    void aMachineWithoutAnActiveDriveHasOneRowWithItsOwnStanding() {
        Table<MachineRow> table = Tables.machines(Sweeps.small());
        assertThat(table.rows()).hasSize(3);
        assertThat(value(table, "machineId", 2)).isEqualTo("LT-003");
        assertThat(value(table, "driveSerial", 2)).isNull();
        assertThat(value(table, "terabytesWritten", 2)).isNull();
        assertThat(value(table, "standing", 2)).isEqualTo("no verdict");
        assertThat(value(table, "reason", 2)).isEqualTo("no report");
        assertThat(value(table, "lastSeenOn", 2)).isNull();
        assertThat(value(table, "reportedThisSweep", 2)).isEqualTo("no");
    }

    @Test
    void worstRowsComeFirstInTheWorkbooksOrder() {
        assertThat(Tables.machines(Sweeps.small()).sortedBy(MachineRow.WORST_FIRST).rows())
            .extracting(MachineRow::machineId).containsExactly("LT-002", "LT-001", "LT-003");
    }

    @Test
    void modelsCountEveryStandingZerosToo() {
        var table = ModelTables.drives(Sweeps.small());
        assertThat(value(table, "pastRating", 0)).isEqualTo(BigDecimal.ONE);
        assertThat(value(table, "urgent", 0)).isEqualTo(BigDecimal.ZERO);
        assertThat(value(table, "consumedPercentPerYearMedian", 0)).isEqualTo(new BigDecimal("25.00"));
    }

    @Test
    void anEmptySpreadAndAnUnknownMemoryGiveEmptyNumbers() {
        Table<MemoryBand> table = Tables.memoryBands(Sweeps.small());
        assertThat(value(table, "memory", 0)).isEqualTo("not reported");
        assertThat(value(table, "memoryGibibytes", 0)).isNull();
        assertThat(value(table, "swapUsedGibibytesMedian", 0)).isNull();
    }

    @Test
    void problemsNameRulePlaceAndRemedy() {
        var table = Tables.problems(ProblemWords.sorted(Sweeps.small().problems()));
        assertThat(table.columns().stream().map(column -> column.valueOf(table.rows().get(0))).toList())
            .isEqualTo(List.of("rating-assumed", "noted", "a.csv", "line 2", "LT-002", "no rating for 1 active drive", "a row of the ratings table for this model and capacity",
                "the rule of thumb of 0.6 TB written per GB stands in; look up the maker's figure and add it"));
    }

    private static <T> Object value(Table<T> table, String column, int row) {
        return table.columns().stream().filter(c -> c.name().equals(column)).findFirst().orElseThrow()
            .valueOf(table.rows().get(row));
    }
}
