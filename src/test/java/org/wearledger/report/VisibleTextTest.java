package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class VisibleTextTest {
    /** Bidirectional controls: Unicode Standard Annex 9, table 1. Others: its code charts. */
    @ParameterizedTest
    @ValueSource(ints = {0x0, 0x7, 0x9, 0xA, 0xD, 0x1B, 0x7F, 0x85, 0x9B, 0x61C, 0x200B, 0x200C, 0x200D, 0x200E, 0x200F, 0x2028, 0x2029, 0x202A, 0x202B,
        0x202C, 0x202D, 0x202E, 0x2060, 0x2066, 0x2067, 0x2068, 0x2069, 0xAD, 0xFEFF, 0x3164, 0xFE0F, 0xE000})
    void hiddenCharactersAreWrittenOut(int c) {
        assertThat(VisibleText.of("a" + Character.toString(c) + "b")).isEqualTo(String.format("a\\u%04Xb", c));
    }

    @Test
    void aTagBeyondSixteenBitsIsAPair() {
        assertThat(VisibleText.of("a\uDB40\uDC41")).isEqualTo("a\\uDB40\\uDC41");
        assertThat(VisibleText.of("half \uD83D")).isEqualTo("half \\uD83D");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "LT-001", "Büro Süd", "\u6771\u4eac", "\u0627\u0644", "250\u00a0GB", "\uD83D\uDCBB", "a\\u202E"})
    void whatIsSeenStays(String text) {
        assertThat(VisibleText.of(text)).isSameAs(text);
    }

    @Test
    void linesOfTheProgramStay() {
        assertThat(VisibleText.ofLines("a\nb\r\u001b[2J\n")).isEqualTo("a\nb\\u000D\\u001B[2J\n");
    }

    /** CommonMark 0.31.2: backslash escapes (2.4), entities (2.5), raw HTML (6.6). */
    /** CommonMark 0.31.2: headings (4.2, 4.3), thematic breaks (4.1), fences (4.5), quotations (5.1) and lists (5.2) begin a line. */
    @ParameterizedTest
    @CsvSource({"# LT, \\# LT", "###### LT, \\###### LT", "> LT, \\> LT", ">LT, \\>LT", "1. LT, 1\\. LT", "23) LT, 23\\) LT", "- LT, \\- LT", "+ LT, \\+ LT", "* LT, \\* LT",
        "---, \\---", "___, \\___", "===, \\===", "~~~, \\~~~", "#LT, #LT", "1.5 LT, 1.5 LT", "-LT, -LT", "LT # 1., LT # 1."})
    void whatWouldBeginABlockIsText(String name, String written) {
        MarkdownLines lines = new MarkdownLines();
        lines.bullet(name);
        assertThat(lines.text()).isEqualTo("- " + written + "\n");
    }

    /** A line is broken before any word, so any word may begin one. */
    @Test
    void aWordThatBeginsABrokenLineIsTextToo() {
        MarkdownLines lines = new MarkdownLines();
        lines.bullet("x".repeat(97) + " # LT");
        assertThat(lines.text()).isEqualTo("- " + "x".repeat(97) + "\n  \\# LT\n");
    }

    @ParameterizedTest
    @CsvSource({"<img src=x>, \\<img src=x>", "\\<img src=x>, \\\\\\<img src=x>", "a\\b, a\\b", "![x](y), !\\[x](y)", "&#x202E;, \\&#x202E;", "R&D, R&D",
        "**x**, \\*\\*x\\*\\*", "LT_1_2, LT_1_2"})
    void markupInNamesIsText(String name, String written) {
        MarkdownLines lines = new MarkdownLines();
        lines.bullet(name);
        assertThat(lines.text()).isEqualTo("- " + written + "\n");
    }
}
