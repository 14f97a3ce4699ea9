package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class HolmTest {
    @Test
    void adjustsInTheOrderGiven() {
        // R 4.2.2: p.adjust(c(.01,.04,.03,.005), "holm"). By hand from Holm (1979): 4 x 0.005, 3 x 0.01, 2 x 0.03, then 0.04 raised to the one before.
        assertThat(Holm.adjust(0.01, 0.04, 0.03, 0.005)).containsExactly(new double[] {0.03, 0.06, 0.06, 0.02}, within(1e-12));
    }

    @Test
    void neverPassesOne() {
        assertThat(Holm.adjust(0.9, 0.6)).containsExactly(1, 1);
    }

    @Test
    void leavesOneOrNoneAsTheyAre() {
        assertThat(Holm.adjust(0.04)).containsExactly(0.04);
        assertThat(Holm.adjust()).isEmpty();
    }

    @Test
    void refusesWhatIsNoProbability() {
        assertThatThrownBy(() -> Holm.adjust(0.1, Double.NaN)).isInstanceOf(IllegalArgumentException.class)
            .hasMessageContaining("NaN");
        assertThatThrownBy(() -> Holm.adjust(1.5)).isInstanceOf(IllegalArgumentException.class).hasMessageContaining("1.5");
    }
}
