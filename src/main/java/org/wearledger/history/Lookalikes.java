package org.wearledger.history;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;

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
            group.stream().filter(stint -> stint.drive().serial().length() < longest).forEach(stint -> problems.add(problem(Finding.ZEROS_LOST, stint, group, DriveId::serial)
                .with(Fact.MACHINE, stint.machineId())));
        });
        grouped(latest, stint -> stint.drive().serial()).forEach(group -> group.forEach(stint -> problems.add(problem(Finding.UNDER_MODELS, stint, group, DriveId::model)
            .with(Fact.DRIVE, stint.drive().serial()))));
        grouped(latest.stream().filter(stint -> stint.counters() != 0).toList(), Stint::counters).forEach(group ->
            group.forEach(stint -> problems.add(problem(Finding.COUNTERS_ALIKE, stint, group, DriveId::toString))));
        return problems;
    }

    /** Groups of several drives only. */
    private static <K> List<List<Stint>> grouped(Collection<Stint> latest, Function<Stint, K> key) {
        Map<K, List<Stint>> groups = new HashMap<>();
        latest.forEach(stint -> groups.computeIfAbsent(key.apply(stint), k -> new ArrayList<>(1)).add(stint));
        return groups.values().stream().filter(group -> group.size() > 1).toList();
    }

    /** With the names of the others, and how many more there are. */
    private static Problem problem(Finding finding, Stint stint, List<Stint> group, Function<DriveId, String> name) {
        List<String> names = group.stream().filter(other -> other != stint).map(other -> name.apply(other.drive())).distinct().sorted().toList();
        return Problem.of(finding, stint.lastSource(), stint.drive().toString()).with(Fact.NAMES, names.stream().limit(MOST_NAMED).toList())
            .with(Fact.COUNT, names.size() > MOST_NAMED ? names.size() - MOST_NAMED : null);
    }

    private static String withoutZeros(String serial) {
        int zeros = 0;
        while (zeros < serial.length() - 1 && serial.charAt(zeros) == '0') {
            zeros++;
        }
        return serial.substring(zeros);
    }
}
