package org.wearledger.budget;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.Decision.State;
import org.wearledger.model.Decision;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Separation;
import org.wearledger.model.Standing;
import org.wearledger.model.WarrantyCheck;
import org.wearledger.model.WorkItem.Action;
import org.wearledger.model.WorkItem;

/** What to do, machine by machine, each thing once however many drives call for it. */
public final class WorkLists {
    private static final int DAYS_TO_CHECK_BACKUP = 7;
    private static final int DAYS_TO_CHECK_BACKUP_OF_WATCHED = 30;
    private static final int DAYS_TO_REPORT = 14;
    /** Orders further ahead stand in the plan and are no work yet. */
    private static final int DAYS_AHEAD = 91;
    private static final String BY_QUALIFIED_PEOPLE = "; opening it, batteries, soldering, and wiping or destroying the old drive are for qualified people under local rules";
    private static final double BYTES_PER_GIBIBYTE = 1L << 30;

    private final LocalDate asOf;
    private final List<WorkItem> items = new ArrayList<>();
    private final Set<DriveId> claimed = new HashSet<>();

    /** What is to be checked before anything is ordered for a drive. */
    private final Map<DriveId, String> checks = new HashMap<>();
    /** A claim is asked after by then. */
    private static final int DAYS_TO_HEAR = 14;
    /** Checks that stand in the list whatever is ordered. */
    private final Set<DriveId> listed = new HashSet<>();
    private final DrivesToCheck drivesToCheck;
    private final Decisions decisions;

    private WorkLists(LocalDate asOf, DrivesToCheck drivesToCheck, Decisions decisions) {
        this.asOf = asOf;
        this.drivesToCheck = drivesToCheck;
        this.decisions = decisions;
    }

    /**
     * By day, then by action, then by machine. Orders more than 91 days ahead are left to the plan.
     *
     * @param drivesToCheck drives in doubt: their figures are checked first
     * @param decisions what was bought or claimed is followed up, what was put off or refused is not asked for
     * @param contrasts write rates by memory size: more memory is proposed where the smaller size writes more, with a clear difference
     */
    public static List<WorkItem> of(Collection<MachineAssessment> machines, Budget budget, Collection<WarrantyCheck> warranties,
                                    Collection<MemoryContrast> contrasts, DrivesToCheck drivesToCheck, Decisions decisions, LocalDate asOf) {
        WorkLists work = new WorkLists(asOf, drivesToCheck, decisions);
        Map<String, String> formerNames = MachineAssessment.formerNames(machines);
        for (MachineAssessment machine : machines) {
            work.care(machine);
            work.figures(machine);
            work.memory(machine, contrasts);
            work.reports(machine);
            work.inventory(machine, formerNames.get(machine.machine().id()));
        }
        warranties.stream().filter(check -> check.finding().isToBeAsked() && work.state(check.machine().machine(), null) == null).forEach(work::claim);
        budget.lines().forEach(line -> work.replacement(line, budget));
        machines.forEach(machine -> work.bought(machine.machine(), machine.standing(), budget));
        work.spareTheOrdered();
        work.leaveTheAccepted();
        work.items.sort(Comparator.comparing(WorkItem::byOn).thenComparing(WorkItem::action).thenComparing(item -> item.machine().id())
            .thenComparing(WorkItem::what));
        return List.copyOf(work.items);
    }

    /** What the owner of a customer's machine, and whoever stands in for it, does: care of its data, and a look at figures that are in doubt. */
    public static List<WorkItem> ofCustomer(MachineAssessment machine, DrivesToCheck toCheck, LocalDate asOf) {
        WorkLists work = new WorkLists(asOf, toCheck, Decisions.none());
        work.care(machine);
        work.figures(machine);
        return List.copyOf(work.items);
    }

    private void care(MachineAssessment machine) {
        if (machine.standing() == Standing.URGENT) {
            add(asOf, Action.BACK_UP, machine, "back up now, before anything else, and check that the backup can be read");
        } else if (machine.standing().compareTo(Standing.WATCH) <= 0) {
            int days = machine.standing() == Standing.PAST_RATING ? 0 : machine.standing() == Standing.DUE ? DAYS_TO_CHECK_BACKUP : DAYS_TO_CHECK_BACKUP_OF_WATCHED;
            add(asOf.plusDays(days), Action.CHECK_BACKUP, machine, "check that the backup is complete and can be read");
        }
        if (machine.standing() == Standing.PAST_RATING || machine.standing() == Standing.DUE) {
            add(asOf.plusDays(DAYS_TO_CHECK_BACKUP), Action.WRITE_LESS, machine,
                "move large working files (video, databases, virtual machines) to another disk; deleting files gives no endurance back");
        }
        if (machine.standing() == Standing.PAST_RATING) {
            add(asOf.plusDays(DAYS_TO_CHECK_BACKUP), Action.KEEP_POWERED, machine,
                "do not put it into store unpowered with data on it: a worn drive keeps its data for a limited time");
        }
    }

    /** A doubt is settled now, also where nothing is to be ordered: a replacement may be missing for it. */
    private void figures(MachineAssessment machine) {
        for (DriveAssessment drive : machine.activeDrives()) {
            String check = drivesToCheck.checkFirst(drive);
            if (check != null) {
                checks.put(drive.id(), check);
                if (drivesToCheck.contains(drive)) {
                    listed.add(drive.id());
                    check(asOf, machine.machine(), drive.standing(), check + inDrive(drive.id()));
                }
            }
        }
    }

    private static String inDrive(DriveId drive) {
        return ", drive " + drive.serial();
    }

    private void check(LocalDate byOn, Machine machine, Standing standing, String what) {
        items.add(new WorkItem(byOn, Action.CHECK_FIGURES, machine, standing, what));
    }

    /** Where small memory goes with more writes on this fleet, a machine that wears is worth a look. */
    private void memory(MachineAssessment machine, Collection<MemoryContrast> contrasts) {
        Long memory = machine.machine().memoryBytes();
        boolean wears = machine.standing().compareTo(Standing.WATCH) <= 0;
        if (memory == null || !wears) {
            return;
        }
        contrasts.stream().filter(c -> c.smallerGibibytes() == Math.round(memory / BYTES_PER_GIBIBYTE)
            && c.separation() == Separation.MORE_THAN_TYPICAL).findFirst()
            .ifPresent(c -> items.add(new WorkItem(asOf.plusDays(DAYS_AHEAD), Action.MORE_MEMORY, machine.machine(), machine.standing(),
                String.format(Locale.ROOT, "consider more memory at the next refresh, where it can be added: here, machines with %d GiB write %.1f GB a day more than those with %d GiB; "
                    + "swap is a cause to check", c.smallerGibibytes(), c.shiftGigabytesPerDay(), c.largerGibibytes()))));
    }

    private void reports(MachineAssessment machine) {
        if (machine.standing() == Standing.NO_VERDICT && machine.isReportDisbelieved()) {
            check(asOf, machine.machine(), machine.standing(), "check the figures that this machine reports, most often their unit");
        } else if (machine.driveNowIn() != null && machine.refused() == null) {
            add(asOf.plusDays(DAYS_TO_REPORT), machine.inInventory() ? Action.GET_REPORT : Action.INVENTORY, machine, machine.ifRenamed());
        } else if (!machine.reportedThisSweep() || machine.standing() == Standing.NO_VERDICT) {
            add(asOf.plusDays(DAYS_TO_REPORT), Action.GET_REPORT, machine,
                machine.refused() != null ? "mend what this machine reports: " + machine.refused()
                    : machine.lastSeenAt() == null ? "find this machine and collect a report" : "collect a complete report of this machine");
        }
    }

    /** @param former of the inventory, the machine whose drive this one now has; {@code null} when there is none */
    private void inventory(MachineAssessment machine, String former) {
        if (!machine.inInventory() && (machine.driveNowIn() == null || machine.refused() != null)) {
            add(asOf.plusDays(DAYS_TO_REPORT), Action.INVENTORY, machine, former == null ? "enter it in the inventory, or find out whose it is"
                : "if " + former + " was renamed so, change its name in inventory.csv; else enter this machine there, or find out whose it is");
        }
    }

    private void claim(WarrantyCheck check) {
        claimed.add(check.drive().id());
        MachineAssessment machine = check.machine();
        items.add(new WorkItem(asOf, Action.ASK_MAKER, machine.machine(), machine.standing(),
            "ask the " + (check.isOfMachine(asOf) ? "machine's" : "drive's") + " maker for a replacement under warranty before buying one: it ends in "
            + days(check.nextEndOn(asOf)) + ", on " + check.nextEndOn(asOf) + (check.nextEndOn(asOf).equals(check.endsOn()) ? "" : "; the " + (check.isOfMachine(asOf) ? "drive's" : "machine's") + " maker answers until " + check.endsOn())
            + "; data leave with the drive: back up first, and ask how it is wiped"));
    }

    private String days(LocalDate end) {
        long days = ChronoUnit.DAYS.between(asOf, end);
        return days + (days == 1 ? " day" : " days");
    }

    private State state(Machine machine, String item) {
        Decision decision = decisions.of(machine.id(), item);
        return decision == null ? null : decision.state();
    }

    private void replacement(PlannedReplacement line, Budget budget) {
        if (state(line.machine(), line.item()) != null) {
            return;
        }
        if (line.orderByOn().isAfter(asOf.plusDays(DAYS_AHEAD))) {
            return;
        }
        String check = checks.get(line.drive());
        if (check != null && !listed.contains(line.drive())) {
            check(line.orderByOn(), line.machine(), line.standing(), check + inDrive(line.drive()));
        }
        String order = (check == null ? "" : check + "; then ") + (claimed.contains(line.drive()) ? "ask the maker first; if it declines, order: " : "order: ") + line.item()
            + ", in place of " + line.drive().serial() + (line.item().equals(line.upperItem()) ? ""
            : line.attachment() == Attachment.UNKNOWN ? "; find out whether the drive is soldered: then a board or a machine is needed instead"
            : "; ask who repairs it whether a new " + line.upperItem() + " is needed instead");
        String dearer = line.item().equals(line.upperItem()) ? ""
            : ", for " + line.upperAmount().subtract(line.amount()).toPlainString() + " " + budget.currency() + " more";
        items.add(new WorkItem(line.orderByOn(), Action.ORDER, line.machine(), line.standing(), order + dearer));
        LocalDate comes = line.orderByOn().plusDays((long) budget.leadTimeDays() + budget.settings().installSlotDays());
        items.add(new WorkItem(line.late() ? comes : line.needOn(), Action.REPLACE, line.machine(),
            line.standing(), "back up first, then " + replaced(line) + BY_QUALIFIED_PEOPLE));
    }

    /** What is to be done next about what was bought for a machine or claimed. */
    private void bought(Machine machine, Standing standing, Budget budget) {
        for (Decision decision : decisions.open().getOrDefault(machine.id(), List.of())) {
            LocalDate comes = decision.date().plusDays((decision.state() == State.ORDERED ? budget.leadTimeDays() : 0) + budget.settings().installSlotDays());
            if (decision.state().isBought()) {
                items.add(new WorkItem(comes.isBefore(asOf) ? asOf : comes, Action.REPLACE, machine, standing, "back up first, then fit what was "
                    + (decision.state() == State.ORDERED ? "ordered on " : "delivered on ") + decision.date() + BY_QUALIFIED_PEOPLE));
            } else if (decision.state() == State.CLAIMED) {
                LocalDate answer = decision.date().plusDays(DAYS_TO_HEAR);
                items.add(new WorkItem(answer.isBefore(asOf) ? asOf : answer, Action.ASK_MAKER, machine, standing, "ask the maker about the claim of " + decision.date()));
            }
        }
    }

    /** Of a risk that is taken, the backups remain. */
    private void leaveTheAccepted() {
        items.removeIf(item -> state(item.machine(), null) == State.ACCEPTED && item.action() != Action.BACK_UP && item.action() != Action.CHECK_BACKUP);
    }

    /** Nobody moves files for the weeks until a new drive comes. */
    private void spareTheOrdered() {
        Set<String> ordered = items.stream().filter(item -> item.action() == Action.ORDER || item.action() == Action.REPLACE).map(item -> item.machine().id()).collect(Collectors.toSet());
        items.removeIf(item -> item.action() == Action.WRITE_LESS && ordered.contains(item.machine().id()));
    }

    private static String replaced(PlannedReplacement line) {
        return switch (line.attachment()) {
            case SOCKETED -> "replace socketed drive " + line.drive().serial();
            case SOLDERED -> "replace " + line.replaces() + " " + line.drive().serial();
            case UNKNOWN -> "replace drive " + line.drive().serial() + " (attachment not known)";
        };
    }

    private void add(LocalDate byOn, Action action, MachineAssessment machine, String what) {
        items.add(new WorkItem(byOn, action, machine.machine(), machine.standing(), what));
    }
}
