package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveId;
import org.wearledger.model.FleetModel;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Steps;

class WearModelTest {
    /** Drives alike, quarter by quarter Gamma(2.5) around 1 % of their rating; every second one of a model that writes so many times more. */
    private static List<DriveSteps> fleet(int drives, int quarters, double factorOfSecondModel) {
        SplittableRandom random = new SplittableRandom(11);
        var quarter = GammaDistribution.of(2.5, 0.01 / 2.5).createSampler(random::nextLong);
        return IntStream.range(0, drives).mapToObj(i -> {
            double factor = i % 2 == 0 ? 1 : factorOfSecondModel;
            double[] durations = new double[quarters];
            Arrays.fill(durations, 1);
            return new DriveSteps(new DriveId(i % 2 == 0 ? "SLOW" : "FAST", "S" + i),
                new Steps(durations, IntStream.range(0, quarters).mapToDouble(q -> factor * quarter.sample()).toArray()));
        }).toList();
    }

    /** With one step drift cannot be learned; without sixteen it cannot be ruled out; then steady drives are taken for steady. */
    @ParameterizedTest(name = "{0} steps a drive: {1}, assumed {2}")
    @CsvSource({"1, 0.15, true", "3, 0.10, false", "4, 0.10, false", "15, 0.10, false", "16, 0, false"})
    void howMuchDriftSteadyDrivesAreGiven(int quarters, double sigma, boolean assumed) {
        WearModel model = WearModel.fit(fleet(60, quarters, 1));
        assertThat(model.drift().sigma()).isCloseTo(sigma, within(0.001));
        assertThat(model.driftAssumed()).isEqualTo(assumed);
    }

    /** A spare in a drawer is no drive in use: four of them, which write half a data unit a quarter, do not move what 397 others have in common. */
    @Test
    void drivesThatNeverWriteAreNotInTheFit() {
        List<DriveSteps> inUse = fleet(401, 8, 1);
        double[] idle = new double[8];
        double[] quarters = new double[8];
        Arrays.fill(idle, 256_000 / 300e12);
        Arrays.fill(quarters, 1);
        List<DriveSteps> withSpares = IntStream.range(0, 401).mapToObj(i -> i < 4 ? new DriveSteps(inUse.get(i).id(), new Steps(quarters, idle)) : inUse.get(i)).toList();
        WearModel before = WearModel.fit(inUse);
        WearModel after = WearModel.fit(withSpares);
        assertThat(after.drives()).isEqualTo(397);
        assertThat(after.population().eta()).isCloseTo(before.population().eta(), within(0.05 * before.population().eta()));
        assertThat(after.population().delta0()).isCloseTo(before.population().delta0(), within(0.05 * before.population().delta0()));
    }

    /** Each model's prior has its own mean; once the models' difference is taken out, drives of both are as alike as those of one. */
    @Test
    void modelsThatDifferAreFittedAsAlikeButForTheirRate() {
        WearModel one = WearModel.fit(fleet(200, 8, 1));
        WearModel two = WearModel.fit(fleet(200, 8, 3));
        assertThat(mean(two, "SLOW")).isCloseTo(0.01, within(0.001));
        assertThat(mean(two, "FAST")).isCloseTo(0.03, within(0.003));
        assertThat(two.familyPrior("FAST").rate() / two.familyPrior("SLOW").rate()).isCloseTo(3, within(0.2));
        assertThat(two.population().delta0()).isCloseTo(one.population().delta0(), within(0.2 * one.population().delta0()));
        assertThat(one.population().eta()).as("the scatter from quarter to quarter").isCloseTo(2.5, within(0.5));
    }

    /** Mean increment of a quarter: eta x rate / (shape - 1). */
    private static double mean(WearModel model, String driveModel) {
        RateBelief prior = model.familyPrior(driveModel);
        return model.population().eta() * prior.rate() / (prior.shape() - 1);
    }

    @Test
    void drivesWithoutAStepDoNotCount() {
        List<DriveSteps> steps = new java.util.ArrayList<>(fleet(10, 4, 1));
        WearModel expected = WearModel.fit(steps);
        steps.add(new DriveSteps(new DriveId("SLOW", "NEW"), new Steps(new double[0], new double[0])));
        assertThat(WearModel.fit(steps)).isEqualTo(expected);
        assertThat(expected.drives()).isEqualTo(10);
    }

    @Test
    void nothingIsCrossedAtOnceUnlessNothingIsLeft() {
        WearModel model = WearModel.fit(List.of());
        RateBelief prior = model.familyPrior("ANY");
        assertThat(model.probabilityOfReaching(prior, 0, 0.5)).isZero();
        assertThat(model.probabilityOfReaching(prior, -1, 0.5)).isZero();
        assertThat(model.probabilityOfReaching(prior, 1, 0)).isEqualTo(1);
        assertThat(model.probabilityOfReaching(prior, 4, 0.5)).isBetween(1e-6, 0.5);
    }

    @Test
    void theMethodPageIsToldWhatWasFitted() {
        WearModel model = WearModel.fit(List.of());
        assertThat(model.summary(new CommonShock(0.2, 0))).isEqualTo(new FleetModel(2.5, 3, 0.012, 0.15, true, 0, 0.2, 0));
    }
}
