package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class QuartilesTest {
    @Test
    void interpolatesAsDefinition7() {
        // R 4.2.2: quantile(c(10,1,4,2), type=7). By hand from Hyndman and Fan (1996), definition 7: positions 1.75, 2.5 and 3.25 of four values.
        assertThat(Quartiles.of(10, 1, 4, 2)).isEqualTo(new Quartiles(4, 1, 1.75, 3, 5.5, 10));
    }

    @Test
    void oneValueIsAllFive() {
        assertThat(Quartiles.of(7)).isEqualTo(new Quartiles(1, 7, 7, 7, 7, 7));
        assertThat(Quartiles.of(7, 7, 7)).isEqualTo(new Quartiles(3, 7, 7, 7, 7, 7));
    }

    @Test
    void twoValuesAreDividedEvenly() {
        assertThat(Quartiles.of(8, 4)).isEqualTo(new Quartiles(2, 4, 5, 6, 7, 8));
    }

    @Test
    void noValueIsNotANumber() {
        Quartiles none = Quartiles.of();
        assertThat(none.size()).isZero();
        assertThat(new double[] {none.least(), none.lower(), none.median(), none.upper(), none.most()})
            .containsOnly(Double.NaN);
    }

    @Test
    void leavesTheArgumentAlone() {
        double[] values = {3, 1, 2};
        Quartiles.of(values);
        assertThat(values).containsExactly(3, 1, 2);
    }

    @Test
    void refusesWhatIsNoNumber() {
        assertThatThrownBy(() -> Quartiles.of(1, Double.NaN)).isInstanceOf(IllegalArgumentException.class)
            .hasMessage("values[1] must be finite, not NaN");
    }
}
