package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PageNamesTest {
    /** The hashes are those of sha256sum. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({"LT-001, LT-001.html", "pc.north.example, pc.north.example.html", "A/B, machine-A-B-998d3ed8983a.html", "../../etc, machine--etc-74ccf3c5b4c1.html", "-rf, machine--rf-686c39acd632.html",
        ".hidden, machine--hidden-1692419006a8.html", "nul, machine-nul-99e624275901.html", "COM1.txt, machine-COM1-txt-be1cf3b1eaa0.html", "M\u00fcller, machine-M-ller-a78429899bb8.html"})
    void aNameIsTheMachinesOwnAsFarAsItIsSafe(String machineId, String name) {
        assertThat(PageNames.of(machineId)).isEqualTo(name);
    }

    @Test
    void noTwoMachinesShareAPage() {
        assertThat(Stream.of("A/B", "A\\B", "A B", "A-B", "A:B", "x".repeat(100), "x".repeat(101)).map(PageNames::of)).doesNotHaveDuplicates()
            .allMatch(name -> name.matches("[A-Za-z0-9][A-Za-z0-9._-]*") && name.length() <= 100);
    }
}
