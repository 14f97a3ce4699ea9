package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Accounting;

class ExitCodeTest {
    /** The script of each-quarter.md looks for how the line begins, whatever the code. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        0 | 0 | 5 | Done; a machine is at "past-rating" or worse: exit code 4
        1 | 0 | 5 | Done, with files or records refused: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        0 | 2 | 5 | Done, with files or records refused: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        0 | 0 | 0 | Done, but no reading was kept: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        """)
    void aStandingReachedDoesNotHideRefusals(long filesRefused, long recordsRefused, long kept, String line) {
        Accounting sums = new Accounting(1 + filesRefused, 1, filesRefused, 5 + recordsRefused, recordsRefused, 5, kept, 5 - kept, 0, 0);
        assertThat(ExitCode.reached(FailOn.PAST_RATING, sums)).isEqualTo(line);
    }
}
