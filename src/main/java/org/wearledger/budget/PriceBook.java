package org.wearledger.budget;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Price;

/**
 * The price list, and which of its items a machine calls for: {@code drive 512 GB} (the smallest that is as large as the old
 * one), {@code drive}, {@code board} or {@code board MODEL}, {@code machine} or {@code machine MODEL}.
 */
final class PriceBook {
    static final String MACHINE = "machine";
    static final String BOARD = "board";
    static final String DRIVE = "drive";
    static final String SIZED_DRIVE = "drive (\\d+(?:\\.\\d+)?) ?(GB|TB)";
    private static final Pattern SIZED = Pattern.compile(SIZED_DRIVE, Pattern.CASE_INSENSITIVE);
    /** A drive sold as 500 GB replaces one of 512: close enough for what is on it. */
    private static final double LEAST_SHARE_OF_CAPACITY = 0.97;

    private final Map<String, Price> byItem = new TreeMap<>();
    private final String currency;
    /** Few kinds of machines call for the same again and again. */
    private final Map<Kind, Choice> choices = new ConcurrentHashMap<>();

    private record Kind(Attachment attachment, Long capacityBytes, String machineModel) {
    }

    /** What is bought: as the plan has it, and the dearer choice where it is not settled which it will be. */
    record Choice(String item, String upperItem) {
    }

    /** @param prices those that are usable */
    PriceBook(List<Price> prices) {
        currency = UsablePrices.currencyOfMost(prices);
        prices.forEach(price -> byItem.put(DriveId.fold(price.item()), price));
    }

    String currency() {
        return currency;
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

    /** Of a unit alone, in cents; 0 without a price. */
    BigDecimal costOfUnit(String item) {
        Price price = price(item);
        return price == null ? BigDecimal.ZERO.setScale(2) : price.costOfUnit();
    }

    Choice choose(Attachment attachment, Long capacityBytes, String machineModel) {
        return choices.computeIfAbsent(new Kind(attachment, capacityBytes, machineModel), kind -> chosen(attachment, capacityBytes, machineModel));
    }

    /** What another machine of the model is called; {@code null} when the list has none. */
    String machine(String machineModel) {
        String item = named(MACHINE, machineModel);
        return price(item) == null ? null : item;
    }

    private Choice chosen(Attachment attachment, Long capacityBytes, String machineModel) {
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
        Matcher sized = SIZED.matcher(item);
        return !sized.matches() ? Double.NaN : Double.parseDouble(sized.group(1)) * (sized.group(2).equals("TB") ? 1_000 : 1);
    }
}
