package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;

/**
 * All that one sweep found, in printing order: machines by id, problems by place.
 *
 * @param asOf the date used; {@code null} when no reading was kept
 */
public record SweepResult(String version, LocalDate asOf, SweepSettings settings, Accounting accounting, List<MachineAssessment> machines,
                          Fleet fleet, List<Problem> problems, Files files, Plan plan) implements Serializable {
    /**
     * What the machines say together: models of drives and of machines and sites by name, memory bands by size.
     *
     * @param fleetModel the wear model fitted, {@code null} by the method of the straight line
     * @param trend of all drives by calendar quarter, up to that of the as-of date
     * @param calibration how forecasts fared on the fleet's own past, {@code null} where none was fitted
     */
    public record Fleet(List<ModelSummary> models, List<ComparedGroup> machineModels, List<ComparedGroup> sites, List<MemoryBand> memoryBands, List<MemoryContrast> memoryContrasts, FleetModel fleetModel,
                        Calibration calibration, RepairSummary repairs, List<TrendQuarter> trend) implements Serializable {
        public Fleet {
            models = List.copyOf(models);
            machineModels = List.copyOf(machineModels);
            sites = List.copyOf(sites);
            memoryBands = List.copyOf(memoryBands);
            memoryContrasts = List.copyOf(memoryContrasts);
            trend = List.copyOf(trend);
        }
    }

    /**
     * The files beside the reports.
     *
     * @param mappings which serves which reports
     * @param sideTables files used as such, by name
     * @param ratings rows used, as those of the inventory, of the prices, of the repairs and of the decisions
     */
    public record Files(List<MappingUse> mappings, List<String> sideTables, int ratings, int inventoryMachines, int prices, int repairs, int decisions)
        implements Serializable {
        public Files {
            mappings = List.copyOf(mappings);
            sideTables = List.copyOf(sideTables);
        }
    }

    /**
     * What to do, and what it costs.
     *
     * @param budget {@code null} when no reading was kept, or all machines are customers'
     * @param comparison with an earlier sweep, {@code null} when none was wished for
     * @param decisions what people settled about the machines
     */
    public record Plan(Budget budget, List<WarrantyCheck> warranties, List<WorkItem> work, ComparedSweeps comparison, Decisions decisions) implements Serializable {
        public Plan {
            warranties = List.copyOf(warranties);
            work = List.copyOf(work);
        }
    }

    public SweepResult {
        machines = List.copyOf(machines);
        problems = List.copyOf(problems);
    }

    /** The machines that the plan is for. */
    public List<MachineAssessment> ownMachines() {
        return machines.stream().filter(MachineAssessment::isOwn).toList();
    }

    /** The machines that customers brought. */
    public List<MachineAssessment> customersMachines() {
        return machines.stream().filter(machine -> !machine.isOwn()).toList();
    }

    /** Whether there is no own machine among them. */
    public boolean isOfCustomersAlone() {
        return !machines.isEmpty() && ownMachines().isEmpty();
    }

    /** The same, held against an earlier sweep. */
    public SweepResult compared(ComparedSweeps comparison) {
        return new SweepResult(version, asOf, settings, accounting, machines, fleet, problems, files,
            new Plan(plan.budget, plan.warranties, plan.work, comparison, plan.decisions));
    }
}
