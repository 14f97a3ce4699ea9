package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Failures;
import org.wearledger.model.Failures.Basis;
import org.wearledger.model.Interval;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.SweepResult;

class FailureTableTest {
    private static RepairSummary repairs(Basis basis, int dead, int read, int worn) {
        RepairSummary r = Sweeps.REPAIRS;
        return new RepairSummary(r.from(), r.currency(), r.counts(), new RepairSummary.DeadDrives(dead, read, worn, new Interval(0, 1)), r.stock(),
            new Failures(basis, 29, 2777, 0.0104, List.of(), List.of()), 0, 0);
    }

    /** Every dead drive is in the rate, worn, or beside it. */
    @ParameterizedTest(name = "{0}: {1} dead, {2} read, {3} worn")
    @CsvSource(delimiter = '|', value = {
        "IN_FIELD | 72 | 41 | 3 | . Not in it: 31 dead drives that could not be read, so the rate is rather too low; 9 of models without a number in the field",
        "IN_FIELD | 63 | 32 | 3 | . Not in it: 31 dead drives that could not be read, so the rate is rather too low",
        "IN_FIELD | 41 | 41 | 3 | . Not in it: 9 of models without a number in the field",
        "IN_FIELD | 32 | 32 | 3 | ''",
        "FOLLOWED | 40 | 32 | 3 | . Not in it: 8 dead drives that no earlier report tells of"})
    void theRateSaysWhichDeadDrivesAreNotInIt(Basis basis, int dead, int read, int worn, String words) {
        assertThat(FailureTable.learned(repairs(basis, dead, read, worn)))
            .isEqualTo("29 drives failed without being worn in 2,777 drive years, 1.04 % a year; by drive model in models.csv" + words);
    }

    @ParameterizedTest
    @CsvSource({"IN_FIELD, the number in the field does not tell the age of each drive", "TOO_FEW, fewer than 20 drives failed that were seen before",
        "NOT_FOLLOWED, most drives were seen only when they came in"})
    void aTableThatIsNotThereIsExplained(Basis basis, String why) {
        assertThat(FailureTable.noAges(Failures.none(basis))).isEqualTo("failures.csv is not written: " + why);
    }

    /** In the budget where that rests on it, else with the repairs. */
    @ParameterizedTest
    @CsvSource({"LEARNED, - random failures:", "GIVEN, - Failures: 31 drives failed"})
    void theSummarySaysTheRateOnce(BudgetSettings.RateSource source, String line) {
        SweepResult r = Sweeps.small();
        BudgetSettings settings = BudgetSettings.withDefaults();
        String text = SummaryText.of(Sweeps.with(r.machines(), r.asOf(), settings.withFailures(0.018, source))).replace("\n  ", " ");
        assertThat(text).containsOnlyOnce("31 drives failed without being worn").contains(line);
    }
}
