package org.wearledger.report;

import java.util.List;
import java.util.function.Predicate;

/** Whose attachment is to be filled in, in words. */
final class UnknownAttachments {
    private static final int MOST_NAMED = 3;

    private UnknownAttachments() {
    }

    /** @param rows of drives whose attachment is not known */
    static String words(List<MachineRow> rows) {
        String unlisted = names(rows, row -> !row.assessment().inInventory());
        return "the attachment of " + Wording.count(rows.size(), "drive") + " is not known (" + names(rows, row -> true) + "): fill in attachment in inventory.csv"
            + (unlisted.isEmpty() ? "" : "; no row there yet: " + unlisted + ": add one, or change the name in its row if the machine was renamed");
    }

    private static String names(List<MachineRow> rows, Predicate<MachineRow> which) {
        List<String> names = rows.stream().filter(which).map(MachineRow::machineId).distinct().sorted().toList();
        return String.join(", ", names.subList(0, Math.min(MOST_NAMED, names.size()))) + (names.size() > MOST_NAMED ? " and " + (names.size() - MOST_NAMED) + " more" : "");
    }
}
