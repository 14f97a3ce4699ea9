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
import org.wearledger.report.MethodNotes.Note;

/** Customers' machines by site and by model: how many, and how they stand. */
final class CustomerCounts {
    static final String SITE = "site";
    static final String MODEL = "model";
    private static final int MOST = 3;
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

    /** The same in words: how they stand, and where most of those are that somebody will soon have to do something about. */
    static List<Note> notes(SweepResult result) {
        List<Group> groups = table(result).rows();
        String standings = Stream.of(Standing.values()).map(standing -> standing.label() + " " + groups.stream().filter(group -> group.by().equals(SITE)).mapToLong(group -> group.at(standing)).sum())
            .collect(Collectors.joining(", "));
        long replaced = result.customersMachines().stream().filter(machine -> machine.standing() == Standing.NO_VERDICT && machine.driveReplacedOn() != null).count();
        int gone = result.fleet().repairs().machinesGone();
        return List.of(new Note("Customers' machines", result.customersMachines().size() + ", in no plan: " + standings
                + (replaced == 0 ? "" : " (" + replaced + ": drive replaced, not read since)")
                + (gone == 0 ? "" : "; not counted: " + gone + " sold, withdrawn or never read")
                + "; " + SweepWriter.CUSTOMERS_CSV + ". Machines that come in are not all machines"),
            new Note("Urgent, past rating or due", pressing(groups, SITE) + "; " + pressing(groups, MODEL)));
    }

    private static String pressing(List<Group> groups, String by) {
        return Wording.named(groups.stream().filter(group -> group.by().equals(by)).toList(), MOST, group -> group.name() + " " + group.pressing() + " of " + group.machines());
    }
}
