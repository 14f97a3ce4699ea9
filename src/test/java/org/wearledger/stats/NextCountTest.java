package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NextCountTest {
    /** R 4: {@code qnbinom(c(.1, .5, .9), size = seen + 0.5, prob = periods / (periods + 1))}. */
    @ParameterizedTest
    @CsvSource({"0, 4, 0, 0, 1", "3, 8.5, 0, 0, 1", "45, 6.25, 4, 7, 11", "2, 0.5, 1, 4, 10"})
    void theNextCountIsNegativeBinomial(long seen, double periods, int low, int middle, int high) {
        NextCount next = new NextCount(seen, periods);
        assertThat(new int[] {next.quantile(0.1), next.quantile(0.5), next.quantile(0.9)}).containsExactly(low, middle, high);
    }
}
