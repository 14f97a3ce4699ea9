package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Endurance;
import org.wearledger.model.Finding;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Problem;
import org.wearledger.model.Projection;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** Twenty machines of one site, each with one drive; of how many the figures are in doubt differs. */
class DoubtfulSitesTest {
    @ParameterizedTest(name = "{0} of {1}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        20 | 20 | check the mapping first, unit and dates: a third or more of the drives of North are in doubt, so order nothing for it yet
        7  | 20 | check the mapping first, unit and dates: a third or more of the drives of North are in doubt, so order nothing for it yet
        6  | 20 | -
        3  | 3  | check the mapping first, unit and dates: a third or more of the drives of North are in doubt, so order nothing for it yet
        2  | 2  | -
        """)
    void aWholeSiteInDoubt(int inDoubt, int all, String sentence) {
        List<MachineAssessment> machines = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        for (int i = 0; i < all; i++) {
            MachineAssessment machine = Sweeps.machine("PC-" + i, Standing.PAST_RATING, Sweeps.drive("KX-" + i, Standing.PAST_RATING, 149, 14,
                new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("test")));
            machines.add(machine);
            if (i < inDoubt) {
                problems.add(Problem.of(Finding.FELL, SourcePlace.wholeFile("a.json"), machine.activeDrives().get(0).id().toString()));
            }
        }
        SweepResult of = Sweeps.with(machines);
        SweepResult result = new SweepResult(of.version(), of.asOf(), of.settings(), of.accounting(), of.machines(), of.fleet(), problems, of.files(), of.plan());
        assertThat(DoubtfulSites.sentence(result)).isEqualTo(sentence == null ? "" : sentence.replace("North", machines.get(0).machine().site() == null ? "machines without a site" : machines.get(0).machine().site()));
    }
}
