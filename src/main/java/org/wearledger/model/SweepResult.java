package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;

/**
 * All that one sweep found, in printing order: machines by id, models by name, memory bands by size, problems by place.
 *
 * @param asOf the date used; {@code null} when no reading was kept
 * @param fleetModel the wear model fitted, {@code null} by the method of the straight line
 * @param calibration how forecasts fared on the fleet's own past, {@code null} likewise
 * @param budget {@code null} when no reading was kept
 * @param comparison with an earlier sweep, {@code null} when none was asked for
 * @param sideTables files used as such, by name
 * @param ratings rows used, likewise the inventory and the prices
 * @param passedOver files in the given folders that are no reports, by name
 */
public record SweepResult(String version, LocalDate asOf, SweepSettings settings, Accounting accounting,
                          List<MachineAssessment> machines, List<ModelSummary> models, List<MemoryBand> memoryBands,
                          List<MemoryContrast> memoryContrasts, FleetModel fleetModel, Calibration calibration, List<Problem> problems, List<String> passedOver,
                          List<String> sideTables, int ratings, int inventoryMachines, int prices, Budget budget,
                          List<WarrantyCheck> warranties, List<WorkItem> work, Comparison comparison)
    implements Serializable {
    public SweepResult {
        machines = List.copyOf(machines);
        models = List.copyOf(models);
        memoryBands = List.copyOf(memoryBands);
        memoryContrasts = List.copyOf(memoryContrasts);
        problems = List.copyOf(problems);
        passedOver = List.copyOf(passedOver);
        sideTables = List.copyOf(sideTables);
        warranties = List.copyOf(warranties);
        work = List.copyOf(work);
    }
}
