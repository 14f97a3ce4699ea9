package org.wearledger.job;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.assess.DeadDriveWear;
import org.wearledger.assess.FailureRecords;
import org.wearledger.budget.Repairs;
import org.wearledger.history.RepairedDrives;
import org.wearledger.history.Stint;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Failures;
import org.wearledger.model.Failures.Basis;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Repair;
import org.wearledger.model.RepairSummary;

/**
 * What the table of repairs says beside the reports.
 *
 * @param drives those in use and those that came in for repair
 */
record RepairFindings(FleetFindings found, List<DriveAssessment> drives, LocalDate asOf) {

    RepairSummary summary(SweepRequest request, List<MachineAssessment> machines) {
        SideTableSet tables = found.inputs().tables();
        List<Repair> repairs = tables.repairs(found.inputs().limits());
        if (repairs.isEmpty()) {
            return RepairSummary.none();
        }
        // Repairs are known of up to the last of them, where the user sets no date before.
        LocalDate until = repairs.stream().map(Repair::date).filter(date -> date.isAfter(asOf)).max(Comparator.naturalOrder()).orElse(asOf);
        Map<Repair, DriveId> driveOf = found.repaired().drives();
        Map<DriveId, DriveAssessment> assessments = drives.stream().collect(Collectors.toMap(DriveAssessment::id, Function.identity()));
        RepairSummary summary = Repairs.summary(repairs, tables.repairs().values().size() - repairs.size(), DeadDriveWear.of(repairs, driveOf, assessments), places(),
            tables.prices().values(), until, request.budget());
        Failures failures = new FailureRecords(summary.from(), until, driveOf, assessments).of(RepairedDrives.seen(ownStints(machines)),
            request.settings().recentDays(), tables.ratings().values(), machines.stream().filter(MachineAssessment::isOwn).map(machine -> machine.activeDrives().stream().map(DriveAssessment::id).toList()).toList());
        boolean hasCustomers = machines.stream().anyMatch(machine -> !machine.isOwn());
        return summary.with(hasCustomers && failures.basis() == Basis.TOO_FEW ? Failures.none(Basis.NOT_FOLLOWED) : failures, gone(repairs, machines));
    }

    private static int gone(List<Repair> repairs, List<MachineAssessment> machines) {
        Set<String> there = machines.stream().map(machine -> DriveId.fold(machine.machine().id())).collect(Collectors.toSet());
        return (int) repairs.stream().map(repair -> DriveId.fold(repair.machineId())).distinct().filter(machine -> !there.contains(machine)).count();
    }

    /** A customer's machine reports when it comes in, and no failure elsewhere is heard of. */
    private List<Stint> ownStints(List<MachineAssessment> machines) {
        Set<String> customers = machines.stream().filter(machine -> !machine.isOwn()).map(machine -> DriveId.fold(machine.machine().id())).collect(Collectors.toSet());
        return found.joined().stints.stream().filter(stint -> !customers.contains(stint.machineId())).toList();
    }

    /** As the reports have them, else the inventory. */
    private Repairs.Places places() {
        Map<String, String> sites = new HashMap<>();
        Map<String, String> models = new HashMap<>();
        found.inputs().tables().inventory().values().forEach(entry -> {
            if (entry.site() != null) {
                sites.put(DriveId.fold(entry.machineId()), entry.site());
            }
            if (entry.machineModel() != null) {
                models.put(DriveId.fold(entry.machineId()), entry.machineModel());
            }
        });
        found.machines().forEach((id, report) -> {
            if (report.machine().site() != null) {
                sites.put(id, report.machine().site());
            }
            if (report.machine().model() != null) {
                models.put(id, report.machine().model());
            }
        });
        return new Repairs.Places(sites, models);
    }
}
