package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.FleetGlance.Doubt;
import org.wearledger.model.FleetGlance.Middle;
import org.wearledger.model.MappedField;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;

/** The last lines of a check where many rules doubt, or few drives say anything. */
class GlanceTextTest {
    private static final Middle NONE = new Middle(0, null);

    private static List<MappedField> fields(String... names) {
        return Stream.of(names).map(MappedField::of).toList();
    }

    @Test
    void threeRulesAreToldAndTheNumberOfTheOthers() {
        List<Doubt> doubts = List.of(new Doubt(ProblemKind.UNIT_CHANGED, 9, fields("a"), ""), new Doubt(ProblemKind.UNITS_DOUBTFUL, 3, fields("a", "b"), "2025-q1/Port.csv"),
            new Doubt(ProblemKind.PERCENTAGE_USED_FELL, 1, fields("c"), ""), new Doubt(ProblemKind.COUNTER_IMPOSSIBLE, 1, fields("a"), ""));
        assertThat(GlanceText.doubt(new FleetGlance(20, 12, 0, doubts, NONE, NONE, NONE))).isEqualTo("12 of 20 drives are in doubt: before sweeping check unit and meaning of "
            + "a (unit-changed, 9 drives); a, b (units-doubtful, 3 drives, all in 2025-q1/Port.csv); c (percentage-used-fell, 1 drive); and by 1 other rule, listed above");
    }

    /** Nine of the ten that report bytes are unchecked; of a hundred drives they would be few. */
    @Test
    void uncheckedAreHeldAgainstTheDrivesThatReportBytes() {
        assertThat(GlanceText.lines(new FleetGlance(100, 0, 9, List.of(), new Middle(10, 1.0), NONE, NONE)).get(1)).startsWith(
            "neither percentage used nor write commands are reported for 9 of 10 drives that report bytes written, so ");
        assertThat(GlanceText.lines(new FleetGlance(100, 0, 8, List.of(), new Middle(10, 1.0), NONE, NONE))).containsExactly(
            "read of 100 drives, in the middle (median): 1.0 TB written (of 10)");
    }

    /** Where a percentage used stands beside the bytes, a wrong unit shows. */
    @Test
    void aSweepSaysSoToo() {
        SweepResult checked = Sweeps.small();
        assertThat(GlanceText.unchecked(checked)).isEmpty();
        SweepResult unchecked = Sweeps.with(checked.machines().stream().map(machine -> Sweeps.machine(machine.machine().id(), machine.standing(),
            machine.activeDrives().stream().map(Sweeps::withoutPercentageUsed).toArray(DriveAssessment[]::new))).toList());
        assertThat(SummaryText.of(unchecked).replace("\n  ", " ")).contains("\n- not to be checked: neither percentage used nor write commands are reported for 2 of 2 drives that report bytes "
            + "written, so a wrong unit of bytes written would not show; check that 156.0 TB is plausible for the most written drive, and 30.0 TB for the one in the middle\n");
    }
}
