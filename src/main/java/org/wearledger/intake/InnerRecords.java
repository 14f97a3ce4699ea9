package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/**
 * Records that lie in an array within other objects, such as {@code {"site": "North", "devices": [{...}, {...}]}}: one for each element, with
 * the fields of the objects around it beside its own. Of two of one name the inner counts; the outer is {@code /../name}.
 *
 * <p>Elements are handed on as they come when all that fields are read from is known by then. Else they wait for the end of the object
 * around them, since what stands behind the array belongs to them too; so many as fit in {@link #MOST_WAITING} characters.
 */
final class InnerRecords {
    private static final int MOST_WAITING = 1 << 22;

    /** What came: a record; or else what stands in its place. */
    sealed interface Found {
    }

    /** One record with the fields around it. */
    record Fields(RawFields values) implements Found {
    }

    /** An object of the outermost kind without anything where records should be. */
    record Nothing() implements Found {
    }

    /** An element that is no object. */
    record Other(JsonToken token) implements Found {
    }

    /** An element with a field twice. */
    record Twice(String name) implements Found {
    }

    /** An outer field that stands so far behind that records went on without it. */
    record Late(String name) implements Found {
    }

    /** A record on its way out of the objects around it. */
    private static final class Waiting {
        private RawFields fields;
        private final int depth;
        private long characters;
        private String twice;

        Waiting(RawFields fields, int depth) {
            this.fields = fields;
            this.depth = depth;
        }
    }

    /** An object around records, within another such or none. */
    private static final class Around {
        private final RawFields fields = new RawFields();
        private List<Waiting> waiting = new ArrayList<>();
        private boolean found;
        private boolean wentOn;
        private long characters;
        /** A name that stands twice in it; each of its records is refused for it, or it alone where none is left. */
        private String twice;
        private boolean refused;
    }

    /** An open bracket: how much of the way to the records leads to it, and the names that lead to it from the object around. */
    private record Open(boolean array, int matched, String prefix, boolean beginsAround) {
    }

    private final JsonParser parser;
    private final FlatJson json;
    private final ExportForm form;
    private final Deque<Open> open = new ArrayDeque<>();
    private final Deque<Around> arounds = new ArrayDeque<>();
    private final Deque<Found> ready = new ArrayDeque<>();
    private final boolean reachesUp;
    /** Whether all that fields are read from has a place in {@link RawFields}. */
    private final boolean allPlaced;
    private long waitingCharacters;

    InnerRecords(JsonParser parser, FlatJson json, ExportForm form) {
        this.parser = parser;
        this.json = json;
        this.form = form;
        allPlaced = form.froms().stream().allMatch(from -> ReportField.named(from) == null && !from.startsWith(ExportForm.UP));
        reachesUp = form.froms().stream().anyMatch(from -> from.startsWith(ExportForm.UP));
    }

    /** {@code null} at the end of the text. */
    Found next() throws IOException {
        while (ready.isEmpty()) {
            JsonToken token = parser.nextToken();
            if (token == null) {
                return null;
            }
            step(token);
        }
        return ready.poll();
    }

    /** Those that wait, where the text cannot be read on; {@code null} when there are no more. */
    Found rest() {
        while (!arounds.isEmpty()) {
            close(arounds.pop());
        }
        return ready.poll();
    }

    private void step(JsonToken token) throws IOException {
        Open in = open.peek();
        switch (token) {
            case FIELD_NAME -> member(in, parser.currentName());
            case START_OBJECT -> object(in);
            case START_ARRAY -> open.push(new Open(true, in == null ? 0 : in.matched, "", false));
            case END_ARRAY -> open.pop();
            case END_OBJECT -> {
                if (open.pop().beginsAround) {
                    close(arounds.pop());
                }
            }
            default -> ready.add(new Other(token));
        }
    }

    /** Of an array, or the outermost. */
    private void object(Open in) throws IOException {
        int matched = in == null ? 0 : in.matched;
        if (matched == form.records().size()) {
            record();
            return;
        }
        arounds.push(new Around());
        open.push(new Open(false, matched, "", true));
    }

    private void member(Open in, String name) throws IOException {
        JsonToken token = parser.nextToken();
        boolean onTheWay = name.equals(form.records().get(in.matched));
        if (onTheWay && token == JsonToken.START_ARRAY) {
            arounds.peek().found = true;
            open.push(new Open(true, in.matched + 1, "", false));
        } else if (onTheWay && token == JsonToken.START_OBJECT && in.matched + 1 == form.records().size()) {
            // Some programs write an array of one element as that element.
            arounds.peek().found = true;
            record();
        } else if (onTheWay && token == JsonToken.START_OBJECT) {
            open.push(new Open(false, in.matched + 1, in.prefix + name + ".", false));
        } else if (token != JsonToken.VALUE_NULL) {
            Around around = arounds.peek();
            String dotted = in.prefix + name;
            try {
                json.member(parser, dotted, around.fields, around.characters);
            } catch (FlatJson.FieldTwiceException e) {
                around.twice = e.getMessage();
            }
            around.characters = json.characters();
            if (around.wentOn && form.froms().stream().anyMatch(from -> from.substring(ups(from) * ExportForm.UP.length()).equals(dotted))) {
                ready.add(new Late(dotted));
            }
        }
    }

    private void record() throws IOException {
        RawFields fields;
        try {
            fields = json.read(parser);
        } catch (FlatJson.FieldTwiceException e) {
            ready.add(new Twice(e.getMessage()));
            return;
        }
        place(new Waiting(fields, arounds.size()));
        if (waitingCharacters > MOST_WAITING) {
            arounds.forEach(around -> around.wentOn = true);
            List<Waiting> all = new ArrayList<>();
            arounds.descendingIterator().forEachRemaining(around -> all.addAll(takeWaiting(around)));
            all.forEach(this::place);
        }
    }

    /** Outwards through the objects around it, up to one in which it has to wait. */
    private void place(Waiting each) {
        int within = arounds.size();
        for (Around around : arounds) {
            if (!around.waiting.isEmpty() || !around.wentOn && !isComplete(each, around)) {
                keep(each);
                around.waiting.add(each);
                return;
            }
            within--;
            takeFrom(around, each, within);
        }
        waitingCharacters -= each.characters;
        ready.add(each.twice != null ? new Twice(each.twice) : new Fields(each.fields));
    }

    private void takeFrom(Around around, Waiting each, int within) {
        each.fields.putAbsent(around.fields, up(each.depth - within));
        if (around.twice != null) {
            each.twice = around.twice;
            around.refused = true;
        }
    }

    private void keep(Waiting each) {
        if (each.characters == 0) {
            each.fields = each.fields.copy();
            each.characters = Math.max(1, json.characters());
            waitingCharacters += each.characters;
        }
    }

    /** Whether all that fields are read from is in the record or the object around it. Further out it may have a name that a nearer one still takes. */
    private boolean isComplete(Waiting each, Around around) {
        if (allPlaced && each.fields.hasAllMapped()) {
            return true;
        }
        for (String from : form.froms()) {
            int ups = ups(from);
            Around held = ups == 0 ? around : around(each.depth - ups);
            if (each.fields.get(from) == null && (held == null || held.fields.get(from.substring(ups * ExportForm.UP.length())) == null)) {
                return false;
            }
        }
        return true;
    }

    /** The one that so many lie around; {@code null} when it is none or has ended. */
    private Around around(int outer) {
        int within = arounds.size();
        for (Around around : arounds) {
            if (--within == outer) {
                return around;
            }
        }
        return null;
    }

    private static int ups(String from) {
        int ups = 0;
        while (from.startsWith(ExportForm.UP, ups * ExportForm.UP.length())) {
            ups++;
        }
        return ups;
    }

    private String up(int objects) {
        return reachesUp ? ExportForm.UP.repeat(objects) : null;
    }

    private static List<Waiting> takeWaiting(Around around) {
        List<Waiting> taken = around.waiting;
        around.waiting = new ArrayList<>();
        return taken;
    }

    /** Its end is reached: its fields belong to all that waited in it, which go on outwards. */
    private void close(Around around) {
        for (Waiting each : takeWaiting(around)) {
            takeFrom(around, each, arounds.size());
            place(each);
        }
        if (around.twice != null && !around.refused) {
            ready.add(new Twice(around.twice));
        } else if (!around.found) {
            ready.add(new Nothing());
        }
    }
}
