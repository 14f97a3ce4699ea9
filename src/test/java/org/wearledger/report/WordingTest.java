package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Interval;

class WordingTest {
    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource({"150, 160, 150 to 160 TB", "95.24, 101.6, 95.2 to 101.6 TB", "158.5, Infinity, 159 TB or more", "0, 158.5, at most 159 TB", "0, 95.24, at most 95.2 TB"})
    void anEnduranceIsTwoSidedOnlyWhereBothSidesAreKnown(double low, double high, String words) {
        assertThat(Wording.terabytes(new Interval(low, high))).isEqualTo(words);
    }
}
