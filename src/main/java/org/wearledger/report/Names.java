package org.wearledger.report;

/** The names that formulas use: cells and columns of the sheet "Assumptions", and the quarters of the plan. */
final class Names {
    static final String AS_OF = "AsOf";
    static final String LEAD_TIME_DAYS = "LeadTimeDays";
    static final String INSTALL_SLOT_DAYS = "InstallSlotDays";
    static final String FAILURES_PER_MACHINE_YEAR = "FailuresPerMachineYear";
    static final String MACHINES_COVERED = "MachinesCovered";
    static final String MACHINE_SHARE = "MachineShare";
    static final String REFRESH_SHARE = "RefreshShare";
    static final String REFRESH_AGE = "RefreshAge";
    static final String WARRANTY_SHARE = "WarrantyShare";
    static final String VAT_PERCENT = "VatPercent";
    /** How many cells lack a price, hold no number, or a decision that nobody can mean. */
    static final String INCOMPLETE = "Incomplete";
    static final String MEAN_COST = "MeanCost";
    static final String DOWNTIME_HOURS = "DowntimeHours";
    static final String DOWNTIME_COST_PER_HOUR = "DowntimeCostPerHour";
    static final String RUSH_FEE = "RushFee";
    static final String RECOVERY_COST = "RecoveryCost";
    static final String EXTRA_WHEN_UNPLANNED = "ExtraWhenUnplanned";
    static final String FAILURE_CHANCE_WHEN_WAITING = "FailureChanceWhenWaiting";
    static final String FAILURES_OF_URGENT = "FailuresOfUrgent";
    /** The first such cell, in words. */
    static final String FIRST_FAULT = "FirstFault";
    static final String QUARTERS = "PlanQuarters";
    static final String QUARTER_STARTS = "PlanQuarterStarts";
    static final String CURRENCIES = "Currencies";
    static final String RATES = "ExchangeRates";
    static final String ITEMS = "PriceItems";
    static final String UNIT_PRICES = "UnitPrices";
    static final String UNIT_COSTS = "UnitCosts";
    static final String LABOUR_COSTS = "LabourCosts";
    static final String DISPOSAL_COSTS = "DisposalCosts";
    static final String BREAK_COSTS = "BreakCosts";
    static final String BREAK_QUANTITIES = "BreakQuantities";
    static final String PACK_SIZES = "PackSizes";
    static final String STOCKS = "Stocks";
    static final String COSTS_OF_ONE = "CostsOfOne";
    static final String ITEM_ACCOUNTS = "ItemAccounts";
    static final String ITEM_KINDS = "ItemKinds";
    static final String ITEM_MACHINES = "ItemMachines";

    private Names() {
    }

    /** The price list's figure for the item named in a cell. */
    static String lookup(String column, String itemCell) {
        return "INDEX(" + column + ",MATCH(" + itemCell + "," + ITEMS + ",0))";
    }
}
