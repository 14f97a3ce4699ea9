package org.wearledger.history;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/** Several readings of one drive at one moment: the richest stands for all if none contradicts it, else none stands. */
final class Duplicates {
    /** A field of which two readings say what differs. */
    private record Conflict(String field, String one, String other) implements Comparable<Conflict> {
        private static final Comparator<Conflict> ORDER = Comparator.comparing(Conflict::field).thenComparing(Conflict::one).thenComparing(Conflict::other);

        @Override
        public int compareTo(Conflict another) {
            return ORDER.compare(this, another);
        }
    }

    private Duplicates() {
    }

    /**
     * The reading kept of {@code sameMoment}: the one with most reported fields, on a tie of the first source; or
     * {@code null}. Adds a problem for each of the others.
     */
    static Reading richest(DriveId id, List<Reading> sameMoment, List<Problem> problems) {
        if (sameMoment.size() == 1) {
            return sameMoment.get(0);
        }
        Map<Reading, Map<String, Object>> fields = new IdentityHashMap<>();
        sameMoment.forEach(reading -> fields.put(reading, reportedFields(reading)));
        Reading richest = sameMoment.stream().min(
            Comparator.comparing((Reading r) -> -fields.get(r).size()).thenComparing(Reading::source)).orElseThrow();
        List<Conflict> conflicts = new ArrayList<>();
        for (Reading one : sameMoment) {
            for (Reading other : sameMoment) {
                conflicts.addAll(differences(fields.get(one), fields.get(other)));
            }
        }
        conflicts.sort(null);
        if (!conflicts.isEmpty()) {
            Conflict first = conflicts.get(0);
            sameMoment.forEach(reading -> problems.add(Problem.of(Finding.CONTRADICTION, reading.source(), id.toString()).with(Fact.COUNT, sameMoment.size())
                .with(Fact.AT, reading.collectedAt()).with(Fact.NAMES, first.field).with(Fact.BEFORE, first.one).with(Fact.AFTER, first.other)));
            return null;
        }
        for (Reading other : sameMoment) {
            if (other != richest) {
                problems.add(Problem.of(Finding.COPY, other.source(), id.toString()).with(Fact.AT, other.collectedAt()).with(Fact.PLACE, richest.source().inWords()));
            }
        }
        return completed(richest, sameMoment.stream().sorted(Comparator.comparing(Reading::source)).toList());
    }

    /** The reading with the health fields that it lacks and another of the same moment has. */
    private static Reading completed(Reading richest, List<Reading> sameMoment) {
        Health health = richest.health();
        for (Reading other : sameMoment) {
            health = health.orElse(other.health());
        }
        return new Reading(richest.source(), richest.collectedAt(), richest.machine(), richest.drive(), health);
    }

    private static boolean isReported(Object value) {
        return value != null && value != Attachment.UNKNOWN;
    }

    private static List<Conflict> differences(Map<String, Object> one, Map<String, Object> other) {
        return one.keySet().stream()
            .filter(name -> other.containsKey(name) && !Objects.equals(one.get(name), other.get(name)))
            .map(name -> new Conflict(name, one.get(name).toString(), other.get(name).toString())).toList();
    }

    /** Every reported field by name, names as joined: those that only name the drive are equal already and left out. */
    private static Map<String, Object> reportedFields(Reading reading) {
        Map<String, Object> fields = new TreeMap<>();
        addComponents("machine", reading.machine(), fields);
        addComponents("drive", reading.drive(), fields);
        reading.health().inWords().forEach((name, value) -> fields.put(HealthField.GROUP + name, value));
        fields.put("machine.id", DriveId.fold(reading.machine().id()));
        fields.remove("drive.model");
        fields.remove("drive.serial");
        return fields;
    }

    /** Reads the record's components, so that a field added to the model later is compared as well. */
    private static void addComponents(String prefix, Record part, Map<String, Object> fields) {
        for (RecordComponent component : part.getClass().getRecordComponents()) {
            try {
                Object value = component.getAccessor().invoke(part);
                if (isReported(value)) {
                    fields.put(prefix + "." + component.getName(), value);
                }
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("public component " + component + " cannot be read", e);
            }
        }
    }
}
