package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.wearledger.model.AgainstRest;
import org.wearledger.model.Endurance;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.Interval;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.Spread;
import org.wearledger.model.SweepResult;

/** A rating that the fleet contradicts must not pass for wear where drive models are ranked. */
class ModelsTextTest {
    private static final Spread SPREAD = new Spread(40, 2, 3, 4);
    /** Fastest by the rating, which its small capacity explains; its controllers say ten times the rating, but hardly surely. */
    private static final ModelSummary SMALL = model("Dunlin S1", 256, 9.4, 1, new ModelFactor(40, 1.74, 1.01, new Interval(0.86, 1.17), Separation.EXPLAINED_BY_CAPACITY), implied(false, "150", 10.6, 1.16, 12.7));
    private static final ModelSummary CONTRADICTED = model("Godwit Q1", 512, 5.4, 2, new ModelFactor(40, 0.98, 1.05, new Interval(0.82, 1.33), Separation.CANNOT_BE_SEPARATED), implied(true, "307.2", 0.5, 0.49, 0.53));
    private static final ModelSummary LARGE = model("Whimbrel P7", 1000, 2.7, 3, new ModelFactor(40, 0.48, 1.0, new Interval(0.83, 1.21), Separation.EXPLAINED_BY_CAPACITY), implied(false, "600", 1.66, 1.5, 1.89));

    private static ImpliedRating implied(boolean assumed, String terabytes, double ofRated, double low, double high) {
        return new ImpliedRating(40, new Endurance(new BigDecimal(terabytes), assumed, null, "test"), ofRated, new Interval(low, high));
    }

    private static ModelSummary model(String name, long gigabytes, double typical, int group, ModelFactor factor, ImpliedRating implied) {
        return new ModelSummary(name, 40, Map.of(), SPREAD, SPREAD, SPREAD, typical, new Interval(typical - 1, typical + 1), group, implied.rated().assumed() ? 40 : 0, 3, List.of(gigabytes), factor, implied,
            new AgainstRest(40, 80, typical - 5, new Interval(typical - 6, typical - 4), typical > 6 ? Separation.MORE_THAN_TYPICAL : typical < 4 ? Separation.LESS_THAN_TYPICAL : Separation.CANNOT_BE_SEPARATED));
    }

    private static SweepResult of(ModelSummary... models) {
        SweepResult r = Sweeps.small();
        SweepResult.Fleet f = r.fleet();
        return new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(),
            new SweepResult.Fleet(List.of(models), f.machineModels(), f.sites(), f.memoryBands(), f.memoryContrasts(), f.fleetModel(), f.calibration(), f.repairs(), f.trend()), r.problems(), r.files(), r.plan());
    }

    private static String summary(ModelSummary... models) {
        return SummaryText.of(of(models)).replace("\n  ", " ");
    }

    /** First is what wears fastest by what its drives last, also where its rating hides that. */
    @Test
    void aModelIsARowWithItsWearByTheRatingAndByItsControllers() {
        assertThat(summary(SMALL, CONTRADICTED, LARGE)).contains("""
            ## Drive models by wear per year

            | Drive model |   GB | Drives |       By the rating | By its controllers | Result                                                 |
            | ----------- | ---: | -----: | ------------------: | -----------------: | ------------------------------------------------------ |
            | Godwit Q1   |  512 |     40 |  5.4 % (4.4 to 6.4) |             10.8 % | no clear difference; rating assumed                    |
            | Dunlin S1   |  256 |     40 | 9.4 % (8.4 to 10.4) |                    | faster than the rest; its small capacity explains that |
            | Whimbrel P7 | 1000 |     40 |  2.7 % (1.7 to 3.7) |              1.6 % | slower than the rest; its large capacity explains that |
            """);
    }

    /** The sheet "Models" and models.csv share it. */
    @Test
    void theTableSaysItWithTheComparison() {
        assertThat(ModelTables.drives(of(CONTRADICTED)).columns().stream().filter(column -> column.name().equals("comparison")).findFirst().orElseThrow().valueOf(CONTRADICTED))
            .isEqualTo("no clear difference from the rest: +0.4 % a year (-0.6 to 1.4); its drives last 154 TB by their controllers, not the assumed 307: then 10.8 % a year");
    }

    /** An equals sign that began a line would need a backslash, which the console shows. */
    @Test
    void aFigureStaysWithItsEqualsSign() {
        for (int length = 60; length < 100; length++) {
            MarkdownLines lines = new MarkdownLines();
            lines.bullet("x".repeat(length) + " n = 48 against 181");
            assertThat(lines.text()).contains("n = 48").doesNotContain("\\");
        }
    }
}
