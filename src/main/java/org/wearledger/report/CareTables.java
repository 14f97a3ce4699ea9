package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.SweepDifference;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarrantyCheck;

/** What IT works with beside the figures: the work list, coverage, changes and warranties. */
final class CareTables {
    /** The table for IT. */
    static final String WORK = "To do";
    /** On its sheet: the steps and what was seen take a screen for each machine. */
    static final List<String> WORK_COLUMNS_SHOWN = List.of("machineId", "site", "user", "standing", "why", "what", "byOn", "amount", "assetTag", "machineModel", "driveModel", "item");

    private CareTables() {
    }

    static Table<WorkRow> work(SweepResult result) {
        String currency = result.plan().budget() == null ? "" : result.plan().budget().currency();
        return new Table<>(WORK, List.of(
            text("machineId", "Machine", work -> work.row().machineId()),
            text("site", "Site", work -> work.row().assessment().machine().site()),
            text("user", "User", work -> work.row().assessment().machine().user()),
            text("standing", "Standing", work -> work.standing().label()),
            longText("why", "Why", work -> ShortWords.why(work, result.asOf())),
            longText("what", "Do", ShortWords::what),
            date("byOn", "By", WorkRow::byOn),
            money("amount", "Cost", currency, WorkRow::amount),
            text("assetTag", "Asset tag", work -> work.row().assessment().machine().assetTag()),
            text("machineModel", "Machine model", work -> work.row().assessment().machine().model()),
            text("driveModel", "Drive model", work -> work.row().drive() == null ? null : work.row().drive().latest().drive().model()),
            text("item", "Item to fit", WorkRow::items),
            text("decision", "Decided", WorkRow::decided),
            longText("steps", "Steps", WorkRow::numberedSteps),
            longText("evidence", "What was seen", work -> work.row().reason())), WorkRow.of(result));
    }

    /** Machines with no report this sweep, or that the inventory does not know. */
    static Table<MachineAssessment> coverage(SweepResult result) {
        Set<String> planned = result.plan().budget() == null ? Set.of()
            : result.plan().budget().lines().stream().map(line -> line.machine().id()).collect(Collectors.toSet());
        return new Table<>("Coverage", List.of(
            text("machineId", "Machine", machine -> machine.machine().id()),
            text("assetTag", "Asset tag", machine -> machine.machine().assetTag()),
            text("site", "Site", machine -> machine.machine().site()),
            text("costCentre", "Cost centre", machine -> machine.machine().costCentre()),
            longText("finding", "What is missing", CareTables::missing),
            date("lastSeenOn", "Last seen", machine -> Wording.day(machine.lastSeenAt())),
            text("standing", "Standing by the last figures", machine -> machine.standing().label()),
            yesNo("inPlan", "Named in the plan", machine -> planned.contains(machine.machine().id()))),
            result.ownMachines().stream().filter(machine -> missing(machine) != null).toList());
    }

    private static String missing(MachineAssessment machine) {
        String report = machine.refused() != null ? "no usable report this sweep: " + machine.refused()
            : machine.lastSeenAt() == null ? "in the inventory, no report found"
            : !machine.reportedThisSweep() ? "no report this sweep" + (machine.driveNowIn() == null ? "" : ": its drive is now in " + machine.driveNowIn())
            : machine.latestSetAsideBy() != null ? "its latest report was set aside (" + machine.latestSetAsideBy().id() + ")" : null;
        String inventory = machine.inInventory() ? null : "reported, but not in the inventory";
        return report == null ? inventory : inventory == null ? report : report + "; " + inventory;
    }

    static Table<SweepDifference> changes(SweepResult result) {
        return new Table<>("Changes", List.of(
            text("change", "Change", change -> change.kind().label()),
            text("machineId", "Machine", SweepDifference::machineId),
            text("site", "Site", SweepDifference::site),
            longText("before", "Then", SweepDifference::before),
            longText("now", "Now", SweepDifference::now),
            money("costDelta", "Change of the planned cost, or of the funding request", result.plan().budget() == null ? "" : result.plan().budget().currency(), SweepDifference::costDelta),
            text("item", "Item, or period of the budget, whose amount changed", SweepDifference::item)),
            result.plan().comparison() == null ? List.of() : result.plan().comparison().differences());
    }

    static Table<WarrantyCheck> warranties(SweepResult result) {
        return new Table<>("Warranty", List.of(
            text("machineId", "Machine", check -> check.machine().machine().id()),
            text("site", "Site", check -> check.machine().machine().site()),
            text("driveModel", "Drive model", check -> check.drive().latest().drive().model()),
            text("driveSerial", "Drive serial", check -> check.drive().latest().drive().serial()),
            longText("finding", "Finding", check -> check.finding().words()),
            date("driveEndsOn", "Drive's warranty until", WarrantyCheck::driveEndsOn),
            date("machineEndsOn", "Machine's warranty until (inventory)", WarrantyCheck::machineEndsOn),
            text("dateRestsOn", "Drive's date rests on", WarrantyCheck::dateRestsOn),
            decimal("consumedPercent", "Consumed of rated", "%", 1, check -> check.drive().wear().consumedPercent()),
            date("passesRatingOn", "Will pass the rating around", WarrantyCheck::passesRatingOn),
            date("passesRatingEarlyOn", "Will pass the rating, one chance in ten by", WarrantyCheck::passesRatingEarlyOn),
            longText("ratingSource", "Rating source", check -> Wording.ratingSource(check.drive().wear().endurance())),
            text("standing", "Standing", check -> check.drive().standing().label())),
            result.plan().warranties());
    }
}
