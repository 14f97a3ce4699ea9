package org.wearledger.model;

import java.io.Serializable;

/**
 * Assumptions about money, of which none can be measured on a drive.
 *
 * @param machineShare of boards that turn out to be whole machines, and of drives of unknown attachment that turn out to be soldered
 * @param machineShareFrom where it comes from
 * @param refreshShare a board that costs more than this share of the machine is not worth it: the machine is replaced
 * @param refreshAgeYears a machine that is older when its drive is due is replaced as a whole
 * @param warrantyShare of claims that the maker is expected to meet
 * @param urgentFailuresPerYear how often a drive that reports failure fails, while it is put off
 * @param vatPercent added to the net amount
 * @param yearName of a fiscal year, with {@code {start}} and {@code {end}} for its years, {@code {start2}} and {@code {end2}} for their last two digits; {@code null} for
 *     {@code 2025}, or {@code FY2025} where it does not begin in January
 */
public record MoneySettings(double machineShare, BudgetSettings.RateSource machineShareFrom, double refreshShare, double refreshAgeYears, double warrantyShare, double urgentFailuresPerYear, double vatPercent,
                            String yearName) implements Serializable {
    /** A fifth of boards, 60 % of a machine's price, seven years, half of claims, an urgent drive that is put off within a year, no VAT: stated guesses, to be set by who knows better. */
    public static MoneySettings withDefaults() {
        return new MoneySettings(0.2, BudgetSettings.RateSource.ASSUMED, 0.6, 7, 0.5, 1, 0, null);
    }

    /** The same with this share of machines. */
    public MoneySettings withMachineShare(double share, BudgetSettings.RateSource from) {
        return new MoneySettings(share, from, refreshShare, refreshAgeYears, warrantyShare, urgentFailuresPerYear, vatPercent, yearName);
    }
}
