package org.wearledger.report;

/** The names that formulas use: cells and columns of the sheet "Assumptions". */
final class Names {
    static final String AS_OF = "AsOf";
    static final String LEAD_TIME_DAYS = "LeadTimeDays";
    static final String INSTALL_SLOT_DAYS = "InstallSlotDays";
    static final String FAILURES_PER_MACHINE_YEAR = "FailuresPerMachineYear";
    static final String MACHINES_COVERED = "MachinesCovered";
    static final String PRICES_MISSING = "PricesMissing";
    static final String MEAN_COST = "MeanCost";
    static final String DOWNTIME_HOURS = "DowntimeHours";
    static final String DOWNTIME_COST_PER_HOUR = "DowntimeCostPerHour";
    static final String RUSH_FEE = "RushFee";
    static final String RECOVERY_COST = "RecoveryCost";
    static final String EXTRA_WHEN_UNPLANNED = "ExtraWhenUnplanned";
    static final String FAILURE_CHANCE_WHEN_WAITING = "FailureChanceWhenWaiting";
    static final String COST_OF_MONEY_PER_YEAR = "CostOfMoneyPerYear";
    static final String ITEMS = "PriceItems";
    static final String UNIT_PRICES = "UnitPrices";
    static final String LABOURS = "Labours";
    static final String DISPOSAL_FEES = "DisposalFees";
    static final String COSTS_OF_ONE = "CostsOfOne";
    static final String ITEM_MACHINES = "ItemMachines";

    private Names() {
    }

    /** The price list's figure for the item named in a cell. */
    static String lookup(String column, String itemCell) {
        return "INDEX(" + column + ",MATCH(" + itemCell + "," + ITEMS + ",0))";
    }
}
