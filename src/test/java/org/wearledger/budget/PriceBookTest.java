package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Price;

class PriceBookTest {
    private static Price price(String item, String currency, String unitPrice) {
        return new Price(item, currency, new BigDecimal(unitPrice), new BigDecimal("45.005"), null, "Invented Supplies", null);
    }

    private static PriceBook book(String... items) {
        List<Price> prices = new ArrayList<>();
        for (String item : items) {
            String[] parts = item.split("=");
            prices.add(price(parts[0], "EUR", parts[1]));
        }
        return new PriceBook(prices);
    }

    @ParameterizedTest(name = "{0}, {1} GB: {2}, at most {3}")
    @CsvSource(nullValues = "-", delimiter = '|', textBlock = """
        SOCKETED | 256.1  | drive 256 GB            | drive 256 GB
        SOCKETED | 250    | drive 256 GB            | drive 256 GB
        SOCKETED | 512.1  | drive 500 GB            | drive 500 GB
        SOCKETED | 525    | drive 1 TB              | drive 1 TB
        SOCKETED | 1024.2 | drive 1 TB              | drive 1 TB
        SOCKETED | 1100   | drive 2000 GB           | drive 2000 GB
        SOCKETED | 4000   | drive 4000 GB           | drive 4000 GB
        SOCKETED | -      | drive, capacity unknown | drive, capacity unknown
        UNKNOWN  | 256.1  | drive 256 GB            | machine
        SOLDERED | 256.1  | board                   | machine
        """)
    void whatAMachineCallsFor(Attachment attachment, Double gigabytes, String item, String upperItem) {
        PriceBook book = book("drive 256 GB=39", "drive 500 GB=58", "Drive 1 TB=92", "drive 2000 GB=170", "board=410", "machine=890");
        PriceBook.Choice choice = book.choose(attachment, gigabytes == null ? null : Math.round(gigabytes * 1e9), "Torvane 14");
        assertThat(choice.item()).isEqualToIgnoringCase(item);
        assertThat(choice.upperItem()).isEqualToIgnoringCase(upperItem);
    }

    @Test
    void aPriceForTheMachinesModelGoesFirst() {
        PriceBook book = book("machine=890", "machine Torvane 14=1190", "board=410", "board Torvane 14=620", "drive=60");
        assertThat(book.choose(Attachment.SOLDERED, null, "torvane 14")).isEqualTo(new PriceBook.Choice("board Torvane 14", "machine Torvane 14"));
        assertThat(book.choose(Attachment.SOLDERED, null, "Quillbox M")).isEqualTo(new PriceBook.Choice("board", "machine"));
        assertThat(book.choose(Attachment.SOCKETED, 256_060_514_304L, null)).isEqualTo(new PriceBook.Choice("drive", "drive"));
    }

    @Test
    void withoutPricesItSaysWhatWouldBeBought() {
        PriceBook none = new PriceBook(List.of());
        assertThat(none.choose(Attachment.SOLDERED, null, "Torvane 14")).isEqualTo(new PriceBook.Choice("machine", "machine"));
        assertThat(none.choose(Attachment.UNKNOWN, 256_060_514_304L, null)).isEqualTo(new PriceBook.Choice("drive 256 GB", "drive 256 GB"));
        assertThat(none.currency()).isEmpty();
        assertThat(none.costOfOne("machine")).isEqualByComparingTo("0");
    }

    /** 39.00 + 45.005 -> 45.01 (half up) + nothing for disposal. */
    @Test
    void eachPartIsRoundedByItself() {
        assertThat(book("drive=39").costOfOne("drive")).isEqualTo(new BigDecimal("84.01"));
    }

    /** The dearer choice is the dearer of those that have a price, and none where it costs no more than the drive. */
    @ParameterizedTest(name = "{0} of {1}: {2}, at most {3}")
    @CsvSource(delimiter = '|', textBlock = """
        SOLDERED | board=410,machine=390           | board        | board
        SOLDERED | Board=410                       | Board        | Board
        SOLDERED | machine=890                     | machine      | machine
        UNKNOWN  | board=410,drive 256 GB=39       | drive 256 GB | board
        UNKNOWN  | board=39,drive 256 GB=39        | drive 256 GB | drive 256 GB
        UNKNOWN  | board=39.01,drive 256 GB=39     | drive 256 GB | board
        """)
    void theDearerChoice(Attachment attachment, String prices, String item, String upperItem) {
        assertThat(book(prices.split(",")).choose(attachment, 256_060_514_304L, "Torvane 14")).isEqualTo(new PriceBook.Choice(item, upperItem));
    }

    /** Of 1000 GB a drive has at least 970, and a capacity of 0, which a report may give, is not that of a board. */
    @Test
    void aDriveThreePercentSmallerWillDo() {
        PriceBook book = book("drive 970 GB=92", "drive 4 TB=300", "board=410");
        assertThat(book.choose(Attachment.SOCKETED, 1_000_000_000_000L, null).item()).isEqualTo("drive 970 GB");
        assertThat(book.choose(Attachment.SOCKETED, 1_001_000_000_000L, null).item()).isEqualTo("drive 4 TB");
        assertThat(book.choose(Attachment.SOCKETED, 0L, null).item()).isEqualTo("drive 970 GB");
    }
}
