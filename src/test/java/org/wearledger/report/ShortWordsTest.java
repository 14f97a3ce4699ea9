package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarningSign;
import org.wearledger.model.WarningSign.Kind;

class ShortWordsTest {
    private static final Projection NONE = new Projection.None("-");

    private static DriveAssessment failing(WarningSign... signs) {
        DriveAssessment d = worn(Standing.URGENT, 10, 5, NONE);
        return new DriveAssessment(d.id(), d.latest(), d.seen(), d.wear(), d.pace(), d.outlook(), d.standing(), d.reason(), List.of(signs));
    }

    private static DriveAssessment worn(Standing standing, double terabytes, Integer used, Projection projection) {
        return Sweeps.drive("KX-1", standing, terabytes, used, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, projection);
    }

    static Stream<Arguments> whys() {
        return Stream.of(
            Arguments.of(failing(WarningSign.of(Kind.READ_ONLY), WarningSign.of(Kind.RELIABILITY_DEGRADED)), "drive is read-only"),
            Arguments.of(failing(WarningSign.of(Kind.RELIABILITY_DEGRADED)), "drive reports degraded reliability"),
            Arguments.of(failing(new WarningSign(Kind.SPARE_AT_THRESHOLD, 9, 10, null)), "spare blocks 9 %, threshold 10 %"),
            Arguments.of(failing(WarningSign.of(Kind.SPARE_BELOW_THRESHOLD)), "spare blocks below the threshold"),
            Arguments.of(failing(new WarningSign(Kind.MEDIA_ERRORS_ROSE, 12, 20, LocalDate.of(2025, 1, 6))), "media errors rose from 12 to 20"),
            Arguments.of(worn(Standing.PAST_RATING, 278, 180, NONE), "wrote 278 of 150 TB rated"),
            Arguments.of(worn(Standing.PAST_RATING, 278, 20, NONE), "writes say 185 %, drive says 20 %"),
            Arguments.of(worn(Standing.PAST_RATING, 120, 105, NONE), "drive says 105 % used"),
            Arguments.of(worn(Standing.DUE, 140, 90, new Projection.Reaches(LocalDate.of(2025, 5, 1), "slope", false)), "reaches its rating around 2025-05-01"),
            Arguments.of(worn(Standing.WATCH, 140, 90, NONE), "may reach its rating within a year"));
    }

    @ParameterizedTest
    @MethodSource("whys")
    void itSaysWhyInAtMostEightWords(DriveAssessment drive, String why) {
        SweepResult result = Sweeps.with(List.of(Sweeps.machine("LT-1", drive.standing(), drive)));
        String said = ShortWords.why(WorkRow.of(result).get(0), result.asOf());
        assertThat(said).isEqualTo(why);
        assertThat(Arrays.stream(said.split(" ")).filter(word -> !word.matches("\\W+"))).hasSizeLessThanOrEqualTo(8);
    }

    @ParameterizedTest
    @MethodSource("whats")
    void itSaysWhatToDoInItsOrder(DriveAssessment drive, String what, String cost) {
        WorkRow row = WorkRow.of(Sweeps.with(List.of(Sweeps.machine("LT-1", drive.standing(), drive)))).get(0);
        assertThat(ShortWords.what(row)).isEqualTo(what);
        assertThat(ShortWords.cost(row)).isEqualTo(cost);
    }

    /** Without the price of a board a soldered drive takes a machine. */
    static Stream<Arguments> whats() {
        return Stream.of(Arguments.of(failing(WarningSign.of(Kind.READ_ONLY)), "back up now; order machine", "962.00"),
            Arguments.of(worn(Standing.PAST_RATING, 278, 180, NONE), "check the backup; order machine", "962.00"),
            Arguments.of(worn(Standing.PAST_RATING, 278, 20, NONE), "check the backup; check the figures; order machine", "962.00"),
            Arguments.of(worn(Standing.WATCH, 140, 90, NONE), "check the backup", ""));
    }
}
