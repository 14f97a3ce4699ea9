package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.WarningSign.Kind;
import org.wearledger.model.WarningSign;

class SignWordsTest {
    /** A drive whose errors rose does not "report that it is failing": each sign has its own sentence. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        READ_ONLY             | The drive reports that it is read-only: it takes no more data.                                      | It reports that it takes no more data.
        RELIABILITY_DEGRADED  | The drive reports that it no longer works reliably.                                                 | It reports that it no longer works reliably.
        SPARE_AT_THRESHOLD    | The drive's spare blocks are down to 8 %; its own limit is 10 %.                                    | It reports that its reserve for worn parts is nearly used up.
        SPARE_BELOW_THRESHOLD | The drive reports that its spare blocks are below its own limit.                                    | It reports that its reserve for worn parts is nearly used up.
        MEDIA_ERRORS_ROSE     | The drive could not read or keep some data: its media errors rose from 8 to 10 by 2025-01-06.       | It reports new errors in reading or keeping data, the last of them by 6 January 2025.
        """)
    void eachSignHasItsSentence(Kind kind, String sentence, String forOwner) {
        WarningSign sign = new WarningSign(kind, 8, 10, LocalDate.parse("2025-01-06"));
        assertThat(SignWords.sentence(sign)).isEqualTo(sentence);
        assertThat(SignWords.forOwner(sign)).isEqualTo(forOwner);
    }
}
