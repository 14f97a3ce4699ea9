package org.wearledger.budget;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.text.similarity.LevenshteinDistance;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * The price list, and which of its items a machine calls for: {@code drive 512 GB} (the smallest that is as large as the old
 * one), {@code drive}, {@code board} or {@code board MODEL}, {@code machine} or {@code machine MODEL}.
 */
final class PriceBook {
    static final String MACHINE = "machine";
    static final String BOARD = "board";
    static final String DRIVE = "drive";
    private static final Pattern SIZED_DRIVE = Pattern.compile("DRIVE (\\d+(?:\\.\\d+)?) ?(GB|TB)");
    /** No sign that a spreadsheet's lookup would take for a wildcard. */
    private static final Pattern KNOWN = Pattern.compile("DRIVE|" + SIZED_DRIVE + "|(BOARD|MACHINE)( [^*?~]{1,80})?");
    private static final int NEAR = 2;
    /** A drive sold as 500 GB replaces one of 512: close enough for what is on it. */
    private static final double LEAST_SHARE_OF_CAPACITY = 0.97;

    private final Map<String, Price> byItem = new TreeMap<>();
    private final List<Problem> problems = new ArrayList<>();
    private final String currency;

    /** What is bought: as the plan has it, and the dearer choice where it is not settled which it will be. */
    record Choice(String item, String upperItem) {
    }

    PriceBook(Collection<Price> prices) {
        Map<String, Long> currencies = new TreeMap<>();
        prices.forEach(price -> currencies.merge(price.currency().toUpperCase(Locale.ROOT), 1L, Long::sum));
        currency = currencies.entrySet().stream().max(Map.Entry.<String, Long>comparingByValue()
            .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder()))).map(Map.Entry::getKey).orElse("");
        for (Price price : prices) {
            if (!price.currency().equalsIgnoreCase(currency)) {
                refuse(ProblemKind.PRICE_CURRENCY_DIFFERS, price, "a price in " + price.currency(), "prices in one currency, here " + currency,
                    "the row is not used; give its price in " + currency);
            } else if (!KNOWN.matcher(DriveId.fold(price.item())).matches()) {
                refuse(ProblemKind.PRICE_ITEM_UNKNOWN, price, "item \"" + price.item() + "\"",
                    "\"drive N GB\", \"drive\", \"board\" or \"machine\", the last two also with a machine model behind", "the row is not used"
                        + nearMiss(DriveId.fold(price.item())));
            } else {
                byItem.put(DriveId.fold(price.item()), price);
            }
        }
    }

    private void refuse(ProblemKind kind, Price price, String found, String expected, String remedy) {
        problems.add(new Problem(kind, SourcePlace.wholeFile("(price list)"), price.item(), found, expected, remedy));
    }

    private static String nearMiss(String item) {
        String first = item.split(" ")[0];
        return Stream.of(DRIVE, BOARD, MACHINE)
            .filter(word -> LevenshteinDistance.getDefaultInstance().apply(first, word.toUpperCase(Locale.ROOT)) <= NEAR).findFirst()
            .map(word -> "; was \"" + word + item.substring(first.length()).replace("*", "") + "\" meant?").orElse("");
    }

    String currency() {
        return currency;
    }

    List<Problem> problems() {
        return problems;
    }

    /** {@code null} when the list has none. */
    Price price(String item) {
        return byItem.get(DriveId.fold(item));
    }

    /** In cents, each part rounded by itself; 0 without a price. */
    BigDecimal costOfOne(String item) {
        Price price = price(item);
        return price == null ? BigDecimal.ZERO.setScale(2)
            : price.costOfOne();
    }

    Choice choose(Attachment attachment, Long capacityBytes, String machineModel) {
        String board = named(BOARD, machineModel);
        String machine = named(MACHINE, machineModel);
        String dearer = Stream.of(board, machine).filter(item -> price(item) != null)
            .max(Comparator.comparing(this::costOfOne)).orElse(machine);
        if (attachment == Attachment.SOLDERED) {
            return new Choice(price(board) != null ? board : machine, dearer);
        }
        String drive = drive(capacityBytes);
        boolean unsettled = attachment == Attachment.UNKNOWN && price(dearer) != null
            && costOfOne(dearer).compareTo(costOfOne(drive)) > 0;
        return new Choice(drive, unsettled ? dearer : drive);
    }

    private String named(String item, String machineModel) {
        String ofModel = item + " " + machineModel;
        return machineModel != null && price(ofModel) != null ? price(ofModel).item() : price(item) != null ? price(item).item() : item;
    }

    private String drive(Long capacityBytes) {
        String smallest = capacityBytes == null ? null : byItem.keySet().stream()
            .filter(item -> gigabytes(item) * 1e9 >= LEAST_SHARE_OF_CAPACITY * capacityBytes)
            .min(Comparator.comparingDouble(PriceBook::gigabytes)).orElse(null);
        if (smallest != null) {
            return byItem.get(smallest).item();
        }
        return price(DRIVE) != null ? price(DRIVE).item() : capacityBytes == null ? DRIVE + ", capacity unknown"
            : DRIVE + " " + Math.round(capacityBytes / 1e9) + " GB";
    }

    /** NaN for what is no drive of a stated size: it compares false. */
    private static double gigabytes(String item) {
        Matcher sized = SIZED_DRIVE.matcher(item);
        return !sized.matches() ? Double.NaN : Double.parseDouble(sized.group(1)) * (sized.group(2).equals("TB") ? 1_000 : 1);
    }
}
