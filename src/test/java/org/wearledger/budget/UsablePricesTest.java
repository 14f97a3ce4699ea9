package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Outcome;
import org.wearledger.model.Price;
import org.wearledger.model.SourcePlace;
import org.wearledger.report.ProblemWords;

class UsablePricesTest {
    private static Price price(String item, String currency, String unitPrice) {
        return new Price(item, currency, new BigDecimal(unitPrice), null, null, null, null);
    }

    private static Outcome<Price> usable(Price... prices) {
        return Budgets.usable(List.of(prices), IntStream.range(0, prices.length).mapToObj(row -> SourcePlace.line("prices.csv", row + 2L)).toList());
    }

    @Test
    void pricesInAnotherCurrencyOrForUnknownItemsAreToldByTheirRowAndNotUsed() {
        Outcome<Price> usable = usable(price("machine", "EUR", "890"), price("Drive 256 GB", "EUR", "39"), price("board", "USD", "400"),
            price("bord", "EUR", "410"), price("drive*", "EUR", "1"));
        assertThat(usable.values()).extracting(Price::item).containsExactly("machine", "Drive 256 GB");
        assertThat(usable.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "prices.csv, line 4: \"board\" at a price in USD; expected prices in one currency, here EUR; the row is not used; give its price in EUR",
            "prices.csv, line 5: item \"bord\"; expected \"drive N GB\", \"drive\", \"board\" or \"machine\", the last two also with a machine "
                + "model behind; the row is not used; was \"board\" meant?",
            "prices.csv, line 6: item \"drive*\"; expected \"drive N GB\", \"drive\", \"board\" or \"machine\", the last two also with a machine "
                + "model behind; the row is not used; was \"drive\" meant?");
    }

    /** It would multiply a price that needs no rate. */
    @Test
    void aRateForTheCurrencyOfMostIsRefused() {
        Price.Terms twice = new Price.Terms(new BigDecimal("2"), 1, 0, null, 0, null, null);
        Outcome<Price> usable = usable(price("machine", "EUR", "890"), new Price("drive", "eur", new BigDecimal("39"), null, null, null, null, twice),
            new Price("board", "USD", new BigDecimal("400"), null, null, null, null, twice));
        assertThat(usable.values()).extracting(Price::item).containsExactly("machine", "board");
        assertThat(usable.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "prices.csv, line 3: \"drive\" with exchangeRate 2 at a price in EUR; expected no exchangeRate for EUR, in which most rows are; the row is not used; leave it empty; "
                + "a row in another currency needs what 1 of that is in EUR");
    }

    /** What is proposed would be used: the remedy never repeats the slip. */
    @ParameterizedTest(name = "\"{0}\": {1}")
    @CsvSource(nullValues = "-", value = {"bord, board", "baord Torvane 14, board Torvane 14", "machien, machine", "drvie 256 GB, drive 256 GB", "boeeards, -", "laptop, -",
        "drive 256GIB, drive 256 GB", "drive 256 gbyte, drive 256 GB", "Drives 1.9 TB, drive 1.9 TB", "drive-512-GB, drive 512 GB", "drive256G, drive 256 GB",
        "drive 256, drive", "drive small, drive", "board Tor*ane, board Torane", "boards, board", "machine?, machine"})
    void whatWasProbablyMeant(String item, String meant) {
        String remedy = ProblemWords.of(usable(price(item, "EUR", "410")).problems().get(0)).remedy();
        assertThat(remedy).isEqualTo("the row is not used" + (meant == null ? "" : "; was \"" + meant + "\" meant?"));
        assertThat(meant == null || usable(price(meant, "EUR", "410")).problems().isEmpty()).isTrue();
    }
}
