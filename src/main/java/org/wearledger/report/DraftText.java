package org.wearledger.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.wearledger.model.FolderDraft;
import org.wearledger.model.MappingDraft;
import org.wearledger.model.MappingDraft.Basis;
import org.wearledger.model.MappingDraft.Choice;
import org.wearledger.model.MappingDraft.Field;
import org.wearledger.model.MappingDraft.Sign;

/** A drafted mapping: the file, and what a person is to look at. What is open stands in the file as a question, which no command reads over. */
public final class DraftText {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final BigDecimal DATA_UNIT = BigDecimal.valueOf(512_000);
    private static final BigDecimal GIBIBYTE = BigDecimal.valueOf(1L << 30);
    private static final int PLACES_OF_TB = 12;
    private static final int PLACES_OF_GB = 9;

    private DraftText() {
    }

    /** The mapping, to be written to a file. */
    public static String json(MappingDraft draft) {
        ObjectNode root = JSON.createObjectNode();
        ObjectNode fields = root.putObject("fields");
        for (Field field : draft.fields()) {
            if (field.key() == null) {
                fields.put(field.name(), field.from());
            } else {
                fields.putObject(field.name()).put("from", field.from()).put(field.key(), joined(field.choices()) + (field.isOpen() || field.choices().isEmpty() ? "?" : ""));
            }
        }
        put(root, "encoding", draft.encoding());
        put(root, "records", draft.within());
        List<Sign> numbers = draft.numbers();
        if (!numbers.isEmpty()) {
            Sign first = numbers.get(0);
            root.put(first.key(), numbers.size() == 1 ? first.value() : first.value() + " or is it " + numbers.get(1).key() + "?");
        }
        List<String> notes = taken(draft);
        if (!notes.isEmpty()) {
            notes.forEach(root.putArray("notes")::add);
        }
        try {
            return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root) + "\n";
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of texts can be written", e);
        }
    }

    private static void put(ObjectNode root, String key, String value) {
        if (value != null) {
            root.put(key, value);
        }
    }

    private static String joined(List<Choice> choices) {
        return choices.stream().map(Choice::value).collect(Collectors.joining(" or "));
    }

    /** What to look at, line by line. */
    public static List<String> lines(FolderDraft of, Path mapping) {
        MappingDraft draft = of.draft();
        List<String> lines = new ArrayList<>();
        String files = of.files().size() == 1 ? of.files().get(0) : of.files().size() + " files, " + of.files().get(0) + " and others";
        lines.add("Written to " + mapping + ", from the first " + Wording.count(draft.records(), "record") + " of " + files);
        List<String> open = open(draft);
        if (!open.isEmpty()) {
            lines.add("To be filled in before anything is read; ask whoever made the export:");
            open.forEach(line -> lines.add("  " + line));
        }
        lines.add("Taken, to be checked:");
        draft.fields().stream().filter(field -> field.basis() == Basis.NONE).forEach(field -> lines.add("  " + named(field) + ", such as " + field.sample() + others(field)));
        taken(draft).forEach(line -> lines.add("  " + line));
        if (!draft.lacking().isEmpty()) {
            lines.add("Needed, and no heading was found for it: " + String.join(", ", draft.lacking()) + "; add it to \"fields\", or to \"constants\" if it is the same for all");
        }
        if (draft.fields().stream().noneMatch(field -> field.name().equals("machine.site"))) {
            Path folder = Path.of(of.folder()).toAbsolutePath().normalize().getFileName();
            lines.add("No site was found: for sums by site add \"constants\": {\"machine.site\": \"" + folder + "\"} beside \"fields\"");
        }
        if (!of.others().isEmpty()) {
            lines.add("Other headings, so move each into a folder of its own: " + String.join(", ", of.others()));
        }
        if (!draft.notUsed().isEmpty()) {
            lines.add("Not used: " + String.join(", ", draft.notUsed()));
        }
        return lines.stream().map(VisibleText::of).toList();
    }

    /**
     * What to do next, with the command.
     *
     * @param open mappings in which something is to be filled in
     * @param out the mapping, where it lies elsewhere than check looks for it; else {@code null}
     */
    public static String next(List<Path> open, Path exports, Path out) {
        String named = exports.toString();
        String inputs = (named.indexOf(' ') < 0 ? named : '"' + named + '"') + (out == null ? "" : " --mapping " + out);
        if (open.isEmpty()) {
            return VisibleText.of("Next: wearledger sweep " + inputs + " --out sweep; put prices.csv, ratings.csv and inventory.csv at its top first, where you have them");
        }
        return VisibleText.of("Next: fill in " + open.stream().map(Path::toString).collect(Collectors.joining(" and ")) + ", then run wearledger check " + inputs);
    }

    private static List<String> open(MappingDraft draft) {
        List<String> lines = new ArrayList<>();
        for (Field field : draft.fields().stream().filter(Field::isOpen).toList()) {
            lines.add(named(field) + (field.choices().isEmpty() ? ": no format known here reads " + field.sample() + "; write it after notebooks-free-docs/mapping.md"
                : ": which " + field.key() + "? " + field.sample() + " is " + field.choices().stream().map(choice -> meaning(field, choice) + " in " + choice.value())
                .collect(Collectors.joining(", "))) + others(field));
        }
        if (draft.numbers().size() > 1) {
            lines.add("numbers: what is the sign? " + draft.numbers().stream().map(choice -> choice.reads() + " with \"" + choice.key() + "\": \"" + choice.value() + "\"")
                .collect(Collectors.joining(", or ")));
        }
        return lines;
    }

    /** What was settled and may be wrong all the same. */
    private static List<String> taken(MappingDraft draft) {
        List<String> lines = new ArrayList<>();
        for (Field field : draft.fields().stream().filter(field -> field.basis() != Basis.NONE && field.basis() != Basis.OPEN).toList()) {
            Choice choice = field.choices().get(0);
            lines.add(named(field) + ": " + choice.value() + why(field.basis()) + "; " + field.sample() + " is "
                + meaning(field, choice) + (field.otherwise() == null ? "" : ", and " + meaning(field, field.otherwise()) + " if it is " + field.otherwise().value()) + others(field));
            if ("format".equals(field.key()) && !hasOffset(choice)) {
                lines.add(field.name() + ": in UTC; where clocks show other times, write \"zone\": \"Europe/Berlin\", or whose they are, beside the format");
            }
        }
        if (draft.encoding() != null) {
            lines.add("encoding: " + draft.encoding() + ", as it looks: check that names with accents are right");
        }
        if (draft.within() != null) {
            lines.add("records: each element of \"" + draft.within() + "\", with what stands around it");
        }
        if (draft.numbers().size() == 1) {
            Sign choice = draft.numbers().get(0);
            lines.add("numbers: \"" + choice.key() + "\": \"" + choice.value() + "\"; one of them is " + choice.reads()
                + (choice.otherwise() == null ? "" : ", since " + choice.otherwise() + " is more or less than a drive can have been written"));
        }
        draft.doubled().forEach((heading, differing) -> lines.add("\"" + heading + "\" stands over more than one column" + (differing == 0 ? ", with the same in each"
            : "; rename one: in " + differing + " of " + draft.records() + " records they differ, and such a record is refused where the heading is mapped")));
        return lines;
    }

    private static String why(Basis basis) {
        return switch (basis) {
            case HEADING -> ", as the heading says";
            case COURSE -> ", as by any other totals fall";
            default -> ", as no other fits heading and values";
        };
    }

    private static boolean hasOffset(Choice format) {
        return format.value().startsWith("epoch") || format.value().endsWith("XXX") || !format.value().contains("m");
    }

    private static String named(Field field) {
        return field.name() + " from \"" + field.from() + "\"";
    }

    private static String others(Field field) {
        return field.others().isEmpty() ? "" : "; or from " + field.others().stream().map(other -> "\"" + other + "\"").collect(Collectors.joining(", "));
    }

    private static String meaning(Field field, Choice choice) {
        if (choice.reads() == null || "format".equals(field.key())) {
            return choice.reads() == null ? "nothing that can be" : choice.reads();
        }
        BigDecimal value = new BigDecimal(choice.reads());
        return switch (field.name()) {
            case "health.dataUnitsWritten", "health.dataUnitsRead" -> value.multiply(DATA_UNIT).movePointLeft(PLACES_OF_TB).setScale(3, RoundingMode.HALF_UP) + " TB";
            case "drive.capacityBytes" -> value.movePointLeft(PLACES_OF_GB).setScale(1, RoundingMode.HALF_UP) + " GB";
            case "machine.memoryBytes" -> value.divide(GIBIBYTE, 1, RoundingMode.HALF_UP) + " GiB";
            case "health.percentageUsed" -> value + " % used";
            case "health.compositeTemperatureKelvin" -> value + " kelvins";
            case "health.powerOnHours" -> value + " hours";
            case "health.controllerBusyMinutes" -> value + " minutes";
            default -> value + " %";
        };
    }
}
