package org.wearledger.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.assess.WearBands;
import org.wearledger.budget.WorkLists;
import org.wearledger.intake.Headings;
import org.wearledger.intake.InputMissingException;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Effect;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WorkItem;

/** The stories of machines of one sweep. */
final class Stories {
    private static final int MOST_REFUSALS_TOLD = 3;
    private static final int MOST_MACHINES_NAMED = 3;
    /** Whose whole histories are held at a time. */
    private static final int MACHINES_AT_A_TIME = 1_000;

    private final JoinedFleet fleet;
    private final SweepResult result;
    private final Map<String, List<PlannedReplacement>> planned;
    private final Map<String, List<WorkItem>> work;
    private final Map<String, List<Problem>> problems;
    /** That may concern any machine. */
    private final List<Problem> general;
    private final DrivesToCheck toCheck;

    Stories(JoinedFleet fleet, SweepResult result) {
        this.fleet = fleet;
        this.result = result;
        planned = by(result.plan().budget() == null ? List.of() : result.plan().budget().lines(), line -> line.machine().id());
        work = by(result.plan().work(), item -> item.machine().id());
        problems = by(result.problems(), Problem::subject);
        general = result.problems().stream().filter(problem -> problem.kind().effect() == Effect.FILE_REFUSED || problem.kind() == ProblemKind.COLUMN_MISSING).toList();
        toCheck = DrivesToCheck.of(result.problems());
    }

    private static <T> Map<String, List<T>> by(List<T> all, Function<T, String> name) {
        return all.stream().collect(Collectors.groupingBy(each -> DriveId.fold(name.apply(each))));
    }

    private static <T> List<T> of(Map<String, List<T>> all, String name) {
        return all.getOrDefault(DriveId.fold(name), List.of());
    }

    /** @throws InputMissingException when no report and no inventory row names the machine */
    MachineStory of(String machineId) throws InputMissingException {
        String wanted = DriveId.fold(machineId);
        MachineAssessment machine = result.machines().stream().filter(m -> DriveId.fold(m.machine().id()).equals(wanted)).findFirst()
            .orElseThrow(() -> new InputMissingException("no machine " + machineId + " in these reports; there "
                + among(machineId, result.machines().stream().map(m -> m.machine().id()).toList())));
        return of(List.of(machine)).get(0);
    }

    void ofAll(Predicate<MachineAssessment> which, Consumer<MachineStory> each) {
        List<MachineAssessment> machines = result.machines().stream().filter(which).toList();
        for (int from = 0; from < machines.size(); from += MACHINES_AT_A_TIME) {
            of(machines.subList(from, Math.min(machines.size(), from + MACHINES_AT_A_TIME))).forEach(each);
        }
    }

    private List<MachineStory> of(List<MachineAssessment> machines) {
        Set<DriveId> drives = machines.stream().flatMap(machine -> machine.activeDrives().stream()).map(DriveAssessment::id).collect(Collectors.toSet());
        Map<DriveId, DriveHistory> histories = fleet.wholeHistories(drives);
        return machines.stream().map(machine -> story(machine, histories)).toList();
    }

    private MachineStory story(MachineAssessment machine, Map<DriveId, DriveHistory> histories) {
        String id = machine.machine().id();
        List<MachineStory.DriveStory> stories = machine.activeDrives().stream().map(drive -> new MachineStory.DriveStory(drive,
            histories.get(drive.id()), WearBands.of(drive, result.fleet().fleetModel()), of(problems, drive.id().toString()))).toList();
        List<WorkItem> toDo = machine.isOwn() ? of(work, id) : WorkLists.ofCustomer(machine, toCheck, result.asOf());
        return new MachineStory(result.version(), result.asOf(), machine, stories, of(planned, id), toDo, ofItsReports(machine));
    }

    private static String among(String wanted, List<String> machines) {
        List<String> near = Headings.nearest(wanted, machines, MOST_MACHINES_NAMED);
        return machines.isEmpty() ? "is none" : "are " + machines.size() + (near.isEmpty()
            ? ", such as " + String.join(", ", machines.subList(0, Math.min(MOST_MACHINES_NAMED, machines.size()))) : ", the nearest " + String.join(", ", near));
    }

    /** A machine without any report may be in the files that were refused; a column that is missing may be missing for it. */
    private List<Problem> ofItsReports(MachineAssessment machine) {
        List<Problem> own = new ArrayList<>(of(problems, machine.machine().id()));
        if (machine.lastSeenAt() == null && own.isEmpty()) {
            general.stream().filter(problem -> problem.kind() != ProblemKind.COLUMN_MISSING).limit(MOST_REFUSALS_TOLD).forEach(own::add);
        }
        general.stream().filter(problem -> problem.kind() == ProblemKind.COLUMN_MISSING).forEach(own::add);
        return own;
    }
}
