package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** Customers' machines by site and by model: how many, and how they stand. */
final class CustomerCounts {
    static final String SITE = "site";
    static final String MODEL = "model";
    private static final int MOST_SITES = 8;
    private static final int MOST_MODELS = 3;
    private static final String NOT_REPORTED = "(not reported)";

    /**
     * The machines of one site, or of one model.
     *
     * @param by {@link #SITE} or {@link #MODEL}
     */
    record Group(String by, String name, Map<Standing, Long> standings) {
        long machines() {
            return standings.values().stream().mapToLong(Long::longValue).sum();
        }

        long at(Standing standing) {
            return standings.getOrDefault(standing, 0L);
        }

        /** Of which somebody will have to do something soon. */
        long pressing() {
            return at(Standing.URGENT) + at(Standing.PAST_RATING) + at(Standing.DUE);
        }
    }

    private static final Comparator<Group> MOST_FIRST = Comparator.comparing(Group::by, Comparator.reverseOrder())
        .thenComparing(Comparator.comparingLong(Group::pressing).reversed()).thenComparing(Comparator.comparingLong(Group::machines).reversed()).thenComparing(Group::name);

    private CustomerCounts() {
    }

    /** By site, then by model, those with the most machines that are urgent, past their rating or due first. */
    static Table<Group> table(SweepResult result) {
        List<MachineAssessment> machines = result.customersMachines();
        List<Column<Group>> columns = new ArrayList<>(List.of(text("by", "By", Group::by), text("name", "Name", Group::name), integer("machines", "Machines", "", Group::machines)));
        for (Standing standing : Standing.values()) {
            columns.add(integer(Tables.camelCase(standing.label()), Wording.sentenceCase(standing.label()), "machines", group -> group.at(standing)));
        }
        return new Table<>("Customers", columns, Stream.concat(groups(machines, SITE, machine -> machine.machine().site()), groups(machines, MODEL, machine -> machine.machine().model()))
            .sorted(MOST_FIRST).toList());
    }

    private static Stream<Group> groups(List<MachineAssessment> machines, String by, Function<MachineAssessment, String> name) {
        return machines.stream().collect(Collectors.groupingBy(machine -> name.apply(machine) == null ? NOT_REPORTED : name.apply(machine), TreeMap::new,
                Collectors.groupingBy(MachineAssessment::standing, () -> new EnumMap<>(Standing.class), Collectors.counting())))
            .entrySet().stream().map(group -> new Group(by, group.getKey(), group.getValue()));
    }

    /** The same in the summary; the groups beyond the most pressing ones together. */
    static void write(SweepResult result, MarkdownLines lines) {
        List<Group> groups = table(result).rows();
        List<List<String>> rows = new ArrayList<>();
        rows.add(row("", "machines", Standing::label));
        add(rows, groups, SITE, MOST_SITES);
        add(rows, groups, MODEL, MOST_MODELS);
        rows.add(row("all", groups, SITE));
        lines.heading("Customers' machines by site and machine model");
        lines.table(rows);
        lines.bullet("in no plan, budget or work list; " + SweepWriter.CUSTOMERS_CSV + " has every site and model");
        Map<Boolean, Long> unread = result.customersMachines().stream().filter(machine -> machine.standing() == Standing.NO_VERDICT)
            .collect(Collectors.partitioningBy(machine -> machine.driveReplacedOn() != null, Collectors.counting()));
        if (unread.get(true) > 0) {
            lines.bullet("no verdict: drive replaced, not read since: " + unread.get(true) + "; others: " + unread.get(false));
        }
        if (result.fleet().repairs().machinesGone() > 0) {
            lines.bullet("not counted: " + Wording.count(result.fleet().repairs().machinesGone(), "machine") + " in the table of repairs, but sold, withdrawn or never read");
        }
        lines.bullet("machines that come in are not all machines: these counts say nothing of those that stay away");
    }

    private static void add(List<List<String>> rows, List<Group> groups, String by, int most) {
        List<Group> these = groups.stream().filter(group -> group.by().equals(by)).toList();
        these.stream().limit(most).forEach(group -> rows.add(row(by + " " + group.name(), List.of(group), by)));
        if (these.size() > most) {
            rows.add(row(Wording.count(these.size() - most, "other " + by), these.subList(most, these.size()), by));
        }
    }

    private static List<String> row(String name, List<Group> groups, String by) {
        List<Group> these = groups.stream().filter(group -> group.by().equals(by)).toList();
        return row(name, Long.toString(these.stream().mapToLong(Group::machines).sum()), standing -> Long.toString(these.stream().mapToLong(group -> group.at(standing)).sum()));
    }

    private static List<String> row(String name, String machines, Function<Standing, String> at) {
        return Stream.concat(Stream.of(name, machines), Stream.of(Standing.values()).map(at)).toList();
    }
}
