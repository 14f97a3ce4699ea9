package org.wearledger.budget;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.text.similarity.LevenshteinDistance;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Outcome;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/** Which rows of a price list a machine can call for: of the items that there are, in the currency of most or with an exchange rate. */
final class UsablePrices {
    /** No sign that a spreadsheet's lookup would take for a wildcard. */
    private static final Pattern KNOWN = Pattern.compile(PriceBook.DRIVE + "|" + PriceBook.SIZED_DRIVE + "|(" + PriceBook.BOARD + "|" + PriceBook.MACHINE
        + ")( [^*?~]{1,80})?", Pattern.CASE_INSENSITIVE);
    private static final Pattern SIZE = Pattern.compile("(\\d+(?:\\.\\d+)?)\\W*([GT])", Pattern.CASE_INSENSITIVE);
    private static final int NEAR = 2;

    private UsablePrices() {
    }

    /** @param places of the prices, in their order */
    static Outcome<Price> of(List<Price> prices, List<SourcePlace> places) {
        List<Price> usable = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        String currency = currencyOfMost(prices);
        for (int i = 0; i < prices.size(); i++) {
            Price price = prices.get(i);
            if (!price.currency().equalsIgnoreCase(currency) && price.terms().exchangeRate() == null) {
                problems.add(Problem.of(Finding.OTHER_CURRENCY, places.get(i), price.item()).with(Fact.CURRENCY, price.currency()).with(Fact.USUAL_CURRENCY, currency));
            } else if (price.currency().equalsIgnoreCase(currency) && price.rate().compareTo(BigDecimal.ONE) != 0) {
                problems.add(Problem.of(Finding.RATE_OF_USUAL_CURRENCY, places.get(i), price.item()).with(Fact.VALUE, price.rate().toPlainString()).with(Fact.CURRENCY, currency));
            } else if (!isKnown(price.item())) {
                problems.add(Problem.of(Finding.UNKNOWN_ITEM, places.get(i), price.item()).with(Fact.NEAR, nearest(price.item())));
            } else {
                usable.add(price);
            }
        }
        return new Outcome<>(usable, problems);
    }

    /** Of as many, the first in the alphabet; empty without prices. */
    static String currencyOfMost(List<Price> prices) {
        Map<String, Long> currencies = prices.stream().collect(Collectors.groupingBy(price -> price.currency().toUpperCase(Locale.ROOT), TreeMap::new,
            Collectors.counting()));
        return currencies.entrySet().stream().max(Map.Entry.<String, Long>comparingByValue()
            .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder()))).map(Map.Entry::getKey).orElse("");
    }

    static boolean isKnown(String item) {
        return KNOWN.matcher(DriveId.fold(item)).matches();
    }

    /** Only what would be used as it is proposed; {@code null} when nothing is near. */
    private static String nearest(String item) {
        String first = item.split(" ")[0].toLowerCase(Locale.ROOT);
        return Stream.of(PriceBook.DRIVE, PriceBook.BOARD, PriceBook.MACHINE)
            .filter(word -> first.startsWith(word) || LevenshteinDistance.getDefaultInstance().apply(first, word) <= NEAR).findFirst()
            .map(word -> meant(word, item.substring(first.startsWith(word) ? word.length() : first.length()))).orElse(null);
    }

    private static String meant(String word, String behind) {
        Matcher size = SIZE.matcher(behind);
        if (word.equals(PriceBook.DRIVE)) {
            return size.find() ? word + " " + size.group(1) + " " + size.group(2).toUpperCase(Locale.ROOT) + "B" : word;
        }
        String whole = word + " " + behind.replaceAll("^[\\W_]+|[*?~]", "");
        return behind.startsWith(" ") && isKnown(whole) ? whole : word;
    }
}
