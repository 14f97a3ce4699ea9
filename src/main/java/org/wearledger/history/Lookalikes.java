package org.wearledger.history;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.DriveId;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/** Drives that may be one drive, or the copy of one, seen over the whole fleet. Noted only: nothing shows which is right. */
final class Lookalikes {
    private static final int MOST_NAMED = 3;

    private Lookalikes() {
    }

    /** @param latest of each drive, the latest stint */
    static List<Problem> problems(Collection<Stint> latest) {
        List<Problem> problems = new ArrayList<>();
        grouped(latest, stint -> new DriveId(stint.machineId() + "\n" + stint.drive().model(), withoutZeros(stint.drive().serial()))).forEach(group -> {
            int longest = group.stream().mapToInt(stint -> stint.drive().serial().length()).max().orElseThrow();
            group.stream().filter(stint -> stint.drive().serial().length() < longest).forEach(stint -> problems.add(problem(ProblemKind.SERIAL_ZEROS_LOST, stint,
                "machine " + stint.machineId() + " also reports serial " + others(stint, group, DriveId::serial) + ", the same but for leading zeros",
                "a serial number with all its digits", "set the serial column to text in the export; the two histories are not joined")));
        });
        grouped(latest, stint -> stint.drive().serial()).forEach(group -> group.forEach(stint -> problems.add(problem(ProblemKind.SERIAL_UNDER_MODELS, stint,
            "serial " + stint.drive().serial() + " also stands under model " + others(stint, group, DriveId::model), "one model to a serial number",
            "if it is one drive, report its model always alike; if not, compare the serials printed on the drives"))));
        grouped(latest.stream().filter(stint -> stint.counters() != 0).toList(), Stint::counters).forEach(group ->
            group.forEach(stint -> problems.add(problem(ProblemKind.COUNTERS_REPEATED, stint,
                "every counter is the same as that of " + others(stint, group, DriveId::toString), "counters of its own for each drive",
                "a drive of several namespaces or ports repeats one page, and so does a copied export: report each drive once"))));
        return problems;
    }

    /** Groups of several drives only. */
    private static <K> List<List<Stint>> grouped(Collection<Stint> latest, Function<Stint, K> key) {
        Map<K, List<Stint>> groups = new HashMap<>();
        latest.forEach(stint -> groups.computeIfAbsent(key.apply(stint), k -> new ArrayList<>(1)).add(stint));
        return groups.values().stream().filter(group -> group.size() > 1).toList();
    }

    private static String others(Stint stint, List<Stint> group, Function<DriveId, String> name) {
        TreeSet<String> names = group.stream().filter(other -> other != stint).map(other -> name.apply(other.drive())).collect(Collectors.toCollection(TreeSet::new));
        return names.stream().limit(MOST_NAMED).collect(Collectors.joining(", ")) + (names.size() > MOST_NAMED ? " and " + (names.size() - MOST_NAMED) + " more" : "");
    }

    private static Problem problem(ProblemKind kind, Stint stint, String found, String expected, String remedy) {
        return new Problem(kind, stint.lastSource(), stint.drive().toString(), found, expected, remedy);
    }

    private static String withoutZeros(String serial) {
        int zeros = 0;
        while (zeros < serial.length() - 1 && serial.charAt(zeros) == '0') {
            zeros++;
        }
        return serial.substring(zeros);
    }
}
