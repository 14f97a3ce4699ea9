package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.AgainstRest;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.Endurance;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.Interval;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.SweepResult;

/** What is said of models that differ, and of those that do not. */
class ComparedNotesTest {
    private static final SweepResult SMALL = Sweeps.small();

    private static ModelFactor factor(double adjusted, double low, double high, Separation separation) {
        return new ModelFactor(50, adjusted, adjusted, new Interval(low, high), separation);
    }

    private static ComparedGroup laptops(String name, double low, double high, Separation byHour, Separation byDay) {
        return new ComparedGroup(name, 50, 4, factor((low + high) / 2, low, high, byHour), factor((low + high) / 2, low, high, byDay), ModelFactor.NOT_COMPARED);
    }

    private static ModelSummary drives(String name, boolean assumed, double low, double high) {
        ModelSummary any = SMALL.fleet().models().get(0);
        return new ModelSummary(name, 50, any.standings(), any.consumedPercent(), any.gigabytesPerDay(), any.consumedPercentPerYear(), 20, any.typicalInterval95(), 1, assumed ? 50 : 0, 31, List.of(256L),
            factor(1, 0.9, 1.1, Separation.EXPLAINED_BY_CAPACITY), new ImpliedRating(50, new Endurance(new BigDecimal("150"), assumed, null, "sheet"), (low + high) / 2, new Interval(low, high)), AgainstRest.tooFew(50, 0));
    }

    private static String of(List<ModelSummary> drives, List<ComparedGroup> laptops, List<MemoryContrast> memory) {
        SweepResult.Fleet f = SMALL.fleet();
        SweepResult result = new SweepResult("1", SMALL.asOf(), SMALL.settings(), SMALL.accounting(), SMALL.machines(), new SweepResult.Fleet(drives, laptops, List.of(), f.memoryBands(), memory, f.fleetModel(),
            f.calibration(), f.repairs(), f.trend()), SMALL.problems(), SMALL.files(), SMALL.plan());
        StringBuilder text = new StringBuilder();
        ComparedNotes.of(result).forEach(note -> text.append(note.topic()).append(": ").append(note.text()).append('\n'));
        return text.toString();
    }

    /** A rating that nobody gave is no promise. */
    @Test
    void onlyAMakersRatingIsAPromise() {
        assertThat(of(List.of(drives("A3", false, 0.3, 0.4), drives("E0", true, 0.45, 0.55), drives("B1", false, 0.95, 1.1), drives("B2", false, 0.6, 1.4)), List.of(), List.of()))
            .contains("times what the maker promises (95 %): A3 2.9 (2.5 to 3.3; n 50; fits 53 of 150 TB); times what is usual for the size (rating assumed): E0 2.0 (1.8 to 2.2; "
                + "n 50; fits 75 of 150 TB); last at least 80 % of it: 1; too little data: 1; models.csv\n",
                "Models to buy, as far as seen: avoid: A3 (wears faster than its rating); E0 (faster than usual, rating assumed). No difference seen: 0 machine models, 2 drive models (from 20 machines on; column \"Result\" names them). "
                + "Stands out as better: none. Not seen: price, failures of all in use\n");
    }

    @Test
    void whatCannotBeToldApartIsCounted() {
        Separation more = Separation.MORE_THAN_TYPICAL;
        Separation same = Separation.CANNOT_BE_SEPARATED;
        assertThat(of(List.of(), List.of(laptops("L1", 2.5, 3.3, more, more), laptops("L2", 2.2, 2.8, more, more), laptops("L3", 1.3, 1.7, more, more), laptops("L4", 1.01, 1.3, more, Separation.EXPLAINED_BY_SITE),
            laptops("L5", 0.9, 1.1, same, same), laptops("L7", 1.3, 1.5, more, more), laptops("L6", 0.8, 0.99, Separation.LESS_THAN_TYPICAL, same)), List.of()))
            .contains("alike in memory and shop: L1 2.9 (2.5 to 3.3), L2 2.5 (2.2 to 2.8), L3 1.5 (1.3 to 1.7), L7 1.4 (1.3 to 1.5); n 50 to 50 each; by chance about 1 of 7; machine-models.csv\n",
                "Machine models not told apart: of 7: 1 explained by site (not adjusted L4 1.2), 2 like the typical, the first 2 above overlap: no sure order\n",
                "Stands out as better: none.");
    }

    @ParameterizedTest
    @CsvSource({"MORE_THAN_TYPICAL, MORE_THAN_TYPICAL, MORE_THAN_TYPICAL", "MORE_THAN_TYPICAL, EXPLAINED_BY_SITE, EXPLAINED_BY_SITE", "LESS_THAN_TYPICAL, EXPLAINED_BY_SITE, EXPLAINED_BY_SITE",
        "MORE_THAN_TYPICAL, LESS_THAN_TYPICAL, CANNOT_BE_SEPARATED", "MORE_THAN_TYPICAL, NOT_COMPARED, MORE_THAN_TYPICAL", "NOT_COMPARED, MORE_THAN_TYPICAL, MORE_THAN_TYPICAL",
        "CANNOT_BE_SEPARATED, MORE_THAN_TYPICAL, CANNOT_BE_SEPARATED"})
    void hoursAndDaysMustAgreeThatAModelStandsOut(Separation byHour, Separation byDay, Separation said) {
        assertThat(laptops("L1", 1, 2, byHour, byDay).separation()).isEqualTo(said);
    }

    @Test
    void theStepOfMemoryThatCannotBeToldApartIsNamed() {
        assertThat(of(List.of(), List.of(), List.of(new MemoryContrast(8, 16, 9, 11, 4.5, new Interval(1, 8), 0.02, Separation.MORE_THAN_TYPICAL), new MemoryContrast(16, 32, 9, 11, 0.2, new Interval(-1, 1.4), 0.7, Separation.CANNOT_BE_SEPARATED))))
            .contains("Memory: 95 %: 8 against 16 GiB +4.5 GB a day (1.0 to 8.0): a cause to check, no proof; no clear difference: 16 against 32 GiB\n");
    }
}
