package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
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
    private static final Spread SPREAD = new Spread(40, 1, 2, 3, 4, 5);
    /** Fastest by the rating, which its small capacity explains; its controllers say ten times the rating, but hardly surely. */
    private static final ModelSummary SMALL = model("Dunlin S1", 256, 9.4, 1, new ModelFactor(40, 1.74, 1.01, new Interval(0.86, 1.17), Separation.EXPLAINED_BY_CAPACITY), implied(false, "150", 10.6, 1.16, 12.7));
    private static final ModelSummary CONTRADICTED = model("Godwit Q1", 512, 5.4, 2, new ModelFactor(40, 0.98, 1.05, new Interval(0.82, 1.33), Separation.CANNOT_BE_SEPARATED), implied(true, "307.2", 0.5, 0.49, 0.53));
    private static final ModelSummary LARGE = model("Whimbrel P7", 1000, 2.7, 3, new ModelFactor(40, 0.48, 1.0, new Interval(0.83, 1.21), Separation.EXPLAINED_BY_CAPACITY), implied(false, "600", 1.66, 1.5, 1.89));

    private static ImpliedRating implied(boolean assumed, String terabytes, double ofRated, double low, double high) {
        return new ImpliedRating(40, new Endurance(new BigDecimal(terabytes), assumed, null, "test"), ofRated, new Interval(low, high));
    }

    private static ModelSummary model(String name, long gigabytes, double typical, int group, ModelFactor factor, ImpliedRating implied) {
        return new ModelSummary(name, 40, Map.of(), SPREAD, SPREAD, SPREAD, typical, new Interval(typical - 1, typical + 1), group, implied.rated().assumed() ? 40 : 0, 3, List.of(gigabytes), factor, implied,
            "comparison of " + name);
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

    @Test
    void aContradictedRatingIsSaidInItsOwnLineAndFirstOfAllWhereItHidesTheFastest() {
        assertThat(summary(SMALL, CONTRADICTED, LARGE)).contains("## Drive models by wear per year\n\n- the order goes by the ratings, some of which the drives contradict (see below): "
                + "by their controllers Godwit Q1 wears fastest, 10.8 % a year\n",
            "- group 2: Godwit Q1 (512 GB), typically 5.4 % of rated a year, 95 % interval 4.4 to 6.4 (n = 40, 40 ratings assumed); its drives last 154 TB by their controllers, not the assumed 307: "
                + "then 10.8 % a year; by the rating: comparison of Godwit Q1;",
            "(n = 40); its drives last 996 TB by their controllers, not the rated 600: then 1.6 % a year; by the rating: comparison of Whimbrel P7;",
            "(n = 40); by its controllers it would wear slower, but they tell too little to be sure; comparison of Dunlin S1;");
        assertThat(summary(SMALL, LARGE)).doesNotContain("the order goes by the ratings");
    }

    @Test
    void capacityAloneIsSaidAsWhatItIs() {
        assertThat(summary(SMALL, LARGE)).contains("at equal capacity 1.01 times the typical (0.86 to 1.17), its small capacity explains that\n",
            "at equal capacity 1.00 times the typical (0.83 to 1.21), its large capacity explains that\n");
    }

    /** The sheet "Models" and models.csv share it. */
    @Test
    void theTableSaysItWithTheComparison() {
        assertThat(ModelTables.drives(of(CONTRADICTED)).columns().stream().filter(column -> column.name().equals("comparison")).findFirst().orElseThrow().valueOf(CONTRADICTED))
            .isEqualTo("comparison of Godwit Q1; its drives last 154 TB by their controllers, not the assumed 307: then 10.8 % a year");
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
