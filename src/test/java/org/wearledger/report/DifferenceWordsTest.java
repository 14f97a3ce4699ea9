package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.AgainstRest;
import org.wearledger.model.Interval;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.Separation;

/** What a comparison found, in words. */
class DifferenceWordsTest {
    @ParameterizedTest(name = "{0}, {1} against {2}")
    @CsvSource(delimiter = '|', textBlock = """
        MORE_THAN_TYPICAL   | 20 | 20 | 2.1  | 0.6  | 3.2  | wears faster than the rest: +2.1 % a year (0.6 to 3.2)
        LESS_THAN_TYPICAL   | 20 | 20 | -1.8 | -3.8 | -0.7 | wears slower than the rest: -1.8 % a year (-3.8 to -0.7)
        CANNOT_BE_SEPARATED | 20 | 20 | 0.6  | -1.0 | 3.3  | no clear difference from the rest: +0.6 % a year (-1.0 to 3.3)
        NOT_COMPARED        | 9  | 31 | NaN  | NaN  | NaN  | too few drives to compare: 9 of the 10 needed
        NOT_COMPARED        | 31 | 0  | NaN  | NaN  | NaN  | too few other drives to compare: 0 of the 10 needed
        """)
    void aDriveModelAgainstTheRest(Separation separation, int own, int others, double shift, double low, double high, String words) {
        assertThat(DifferenceWords.of(new AgainstRest(own, others, shift, new Interval(low, high), separation))).isEqualTo(words);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        MORE_THAN_TYPICAL   | 25.0  | 10.4  | 40.9  | 8 GiB machines write 25.0 GB a day more than 16 GiB machines (10.4 to 40.9): possibly swapping, check
        LESS_THAN_TYPICAL   | -20.0 | -20.4 | -19.1 | 8 GiB machines write 20.0 GB a day less than 16 GiB machines (19.1 to 20.4): memory does not explain that; look at what the machines do
        CANNOT_BE_SEPARATED | 3.3   | -6.7  | 9.8   | 8 GiB machines and 16 GiB machines: no clear difference, +3.3 GB a day (-6.7 to 9.8)
        NOT_COMPARED        | NaN   | NaN   | NaN   | 8 GiB machines and 16 GiB machines: too few to compare (30 and 4 with a known rate; 5 each are needed)
        """)
    void aMemorySizeAgainstTheNextLarger(Separation separation, double shift, double low, double high, String words) {
        assertThat(DifferenceWords.of(new MemoryContrast(8, 16, 30, 4, shift, new Interval(low, high), 0.01, separation))).isEqualTo(words);
    }
}
