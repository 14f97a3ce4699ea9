package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.stats.MixedModel.Factor;
import org.wearledger.stats.MixedModel.Kind;
import org.wearledger.stats.MixedModel.Sums;

/**
 * Against R 4.2.2, lme4 1.1-31, with {@code control = lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-9))}. The standard errors of estimated
 * less true effects are {@code s <- sigma(m); L <- t(getME(m, "Lambdat")); LZ <- getME(m, "Z") %*% L; X <- getME(m, "X");
 * C <- solve(rbind(cbind(crossprod(LZ) + diag(ncol(LZ)), crossprod(LZ, X)), cbind(crossprod(X, LZ), crossprod(X)))); q <- 1:ncol(LZ);
 * sqrt(diag(s^2 * L %*% C[q, q] %*% t(L)))}.
 */
class MixedModelTest {
    /**
     * Diameters by plate, six samples each: {@code P <- lme4::Penicillin; P[order(P$plate, P$sample), "diameter"]} (Davies and Goldsmith,
     * Statistical Methods in Research and Production, 4th ed. 1972, table 6.6).
     */
    private static final int[] DIAMETERS = {27, 23, 26, 23, 23, 21, 27, 23, 26, 23, 23, 21, 25, 21, 25, 24, 24, 20, 26, 23, 25, 23, 23, 20, 25, 22, 26, 22, 23, 20,
        24, 22, 25, 23, 22, 19, 24, 20, 23, 21, 22, 19, 26, 22, 26, 24, 24, 21, 24, 21, 24, 22, 22, 20, 24, 21, 24, 23, 22, 19, 26, 23, 26, 24, 24, 21, 25, 22, 26,
        24, 24, 20, 26, 24, 26, 24, 25, 22, 26, 23, 26, 23, 23, 20, 26, 23, 25, 24, 24, 22, 25, 22, 25, 23, 23, 20, 25, 21, 24, 23, 23, 20, 25, 22, 24, 23, 23, 19,
        24, 21, 23, 21, 21, 19, 26, 23, 26, 24, 24, 21, 25, 21, 24, 22, 22, 18, 25, 22, 25, 22, 22, 20, 24, 21, 24, 22, 24, 19, 24, 21, 24, 22, 21, 18};
    private static final int SAMPLES = 6;

    /** Effort by subject, four stools each: {@code nlme::ergoStool$effort} (Pinheiro and Bates, Mixed-Effects Models in S and S-PLUS, 2000, 1.2). */
    private static final int[] EFFORTS = {12, 15, 12, 10, 10, 14, 13, 12, 7, 14, 13, 9, 7, 11, 10, 9, 8, 11, 8, 7, 9, 11, 11, 10, 8, 12, 12, 11, 7, 11, 8, 7, 9, 13,
        10, 8};

    private static Sums penicillin(List<Integer> rows) {
        Sums sums = new Sums(List.of(new Factor(Kind.DRAWN, DIAMETERS.length / SAMPLES), new Factor(Kind.DRAWN, SAMPLES)));
        rows.forEach(row -> sums.add(DIAMETERS[row], row / SAMPLES, row % SAMPLES));
        return sums;
    }

    /** Without each fifth row from the third: no two plates are then alike. */
    private static List<Integer> rows(boolean all) {
        List<Integer> rows = new ArrayList<>();
        for (int row = 0; row < DIAMETERS.length; row++) {
            if (all || row % 5 != 2) {
                rows.add(row);
            }
        }
        return rows;
    }

    /** {@code m <- lmer(diameter ~ 1 + (1|plate) + (1|sample), P)}; and with {@code P[-seq(3, 144, by = 5), ]}. */
    @ParameterizedTest(name = "all rows: {0}")
    @CsvSource({"true, 22.9722222222, 0.846704303028, 1.931558331593, 0.549923142551", "false, 23.008207765, 0.820633600263, 1.920258687395, 0.562380173799"})
    void twoCrossedFactors(boolean all, double mean, double plates, double samples, double noise) {
        MixedModel model = MixedModel.fit(penicillin(rows(all)), false).orElseThrow();
        assertThat(model.mean().mean()).isCloseTo(mean, within(1e-6));
        assertThat(model.deviation(0)).isCloseTo(plates, within(1e-4));
        assertThat(model.deviation(1)).isCloseTo(samples, within(1e-4));
        assertThat(model.noise()).isCloseTo(noise, within(1e-5));
    }

    /** The second of these, {@code ranef(m)}, and the standard errors above. */
    @ParameterizedTest(name = "factor {0}, level {1}")
    @CsvSource({"0, 0, 0.691790698937, 0.289979408292", "0, 1, 0.727266341935, 0.289979408292", "1, 4, 0.0887430995984, 0.793167807874",
        "1, 5, -3.0060132109783, 0.793042439103"})
    void effectsAreDrawnTowardsZero(int factor, int level, double effect, double deviation) {
        MixedModel model = MixedModel.fit(penicillin(rows(false)), false).orElseThrow();
        assertThat(model.effect(factor, level).mean()).isCloseTo(effect, within(1e-5));
        assertThat(model.effect(factor, level).deviation()).isCloseTo(deviation, within(1e-4));
    }

    /** {@code lmer(effort ~ Type + (1|Subject), nlme::ergoStool)}: contrasts with the first stool, {@code VarCorr}, {@code ranef} of subjects 8 and 2. */
    @Test
    void aFreeFactorIsNotDrawn() {
        Sums sums = new Sums(List.of(new Factor(Kind.FREE, 4), new Factor(Kind.DRAWN, 9)));
        for (int row = 0; row < EFFORTS.length; row++) {
            sums.add(EFFORTS[row], row % 4, row / 4);
        }
        MixedModel model = MixedModel.fit(sums, false).orElseThrow();
        double first = model.effect(0, 0).mean();
        assertThat(new double[] {model.effect(0, 1).mean() - first, model.effect(0, 2).mean() - first, model.effect(0, 3).mean() - first})
            .containsExactly(new double[] {3.888888888889, 2.222222222222, 0.666666666667}, within(1e-4));
        assertThat(model.deviation(1)).isCloseTo(1.33246500678, within(1e-4));
        assertThat(model.noise()).isCloseTo(1.10029457072, within(1e-4));
        assertThat(new double[] {model.effect(1, 1).mean(), model.effect(1, 7).mean()}).containsExactly(new double[] {1.70871624062, -1.70871624062}, within(1e-4));
    }

    @Test
    void theOrderOfTheValuesChangesNoBit() {
        List<Integer> shuffled = rows(false);
        Collections.shuffle(shuffled, new Random(1));
        MixedModel one = MixedModel.fit(penicillin(rows(false)), true).orElseThrow();
        MixedModel other = MixedModel.fit(penicillin(shuffled), true).orElseThrow();
        assertThat(other.effect(0, 3)).isEqualTo(one.effect(0, 3));
        assertThat(other.mean()).isEqualTo(one.mean());
    }

    /** Groups that differ by less than chance would have it: restricted likelihood says 0, which would pass for certain. */
    @Test
    void awayFromZeroLeavesRoomForADifference() {
        Sums sums = new Sums(List.of(new Factor(Kind.DRAWN, 4)));
        for (int i = 0; i < 40; i++) {
            sums.add(i / 4 % 2 == 0 ? 1 : 2, i % 4);
        }
        assertThat(MixedModel.fit(sums, false).orElseThrow().effect(0, 0).deviation()).isCloseTo(0, within(1e-3));
        assertThat(MixedModel.fit(sums, true).orElseThrow().effect(0, 0).deviation()).isBetween(0.05, 0.2);
    }

    @Test
    void noModelWithoutNoise() {
        Sums sums = new Sums(List.of(new Factor(Kind.DRAWN, 2)));
        assertThat(MixedModel.fit(sums, true)).isEmpty();
        sums.add(1, 0);
        sums.add(1, 1);
        assertThat(MixedModel.fit(sums, true)).isEmpty();
    }
}
