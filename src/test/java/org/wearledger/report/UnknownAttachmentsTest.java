package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;

class UnknownAttachmentsTest {
    /** A machine that the inventory lacks stands in brackets. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        LT-1                     | the attachment of 1 drive is not known (LT-1): fill in attachment in inventory.csv
        LT-3 LT-1 LT-2           | the attachment of 3 drives is not known (LT-1, LT-2, LT-3): fill in attachment in inventory.csv
        LT-1 LT-2 LT-3 LT-4 LT-5 | the attachment of 5 drives is not known (LT-1, LT-2, LT-3 and 2 more): fill in attachment in inventory.csv
        LT-1 LT-1                | the attachment of 2 drives is not known (LT-1): fill in attachment in inventory.csv
        (LT-1)                   | the attachment of 1 drive is not known (LT-1): fill in attachment in inventory.csv; no row there yet: LT-1: add one, or change the name in its row if the machine was renamed
        LT-1 (LT-2)              | the attachment of 2 drives is not known (LT-1, LT-2): fill in attachment in inventory.csv; no row there yet: LT-2: add one, or change the name in its row if the machine was renamed
        """)
    void theMachinesAreNamed(String machines, String words) {
        List<MachineRow> rows = MachineRow.of(Stream.of(machines.split(" ")).map(UnknownAttachmentsTest::machine).toList());
        assertThat(UnknownAttachments.words(rows)).isEqualTo(words);
    }

    private static MachineAssessment machine(String id) {
        MachineAssessment m = Sweeps.machine(id.replaceAll("[()]", ""), Standing.WITHIN_RATING);
        return new MachineAssessment(m.machine(), Attachment.UNKNOWN, m.activeDrives(), m.standing(), m.reason(), m.lastSeenAt(), true, null, null, !id.startsWith("("));
    }
}
