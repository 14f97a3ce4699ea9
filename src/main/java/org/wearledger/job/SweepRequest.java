package org.wearledger.job;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.wearledger.history.Limits;
import org.wearledger.intake.Pseudonyms;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.SweepSettings;

/**
 * What to sweep.
 *
 * @param reports files, folders or patterns
 * @param sideTables by the table's name, such as {@code ratings}, the file that is it; without one the table at the top of a swept folder
 * @param mapping file that says how the reports name their fields where no folder of theirs has one that does, {@code null} for the report form
 * @param pseudonymKey to replace names of machines, drives and files with, {@code null} to leave them
 * @param earlier output folder of an earlier sweep to compare with, {@code null} for none
 * @param compareWith earlier date to compare with, computed from these reports; {@code null} for none
 * @param now the caller's clock: a reading dated more than a day later is set aside
 */
public record SweepRequest(List<String> reports, Map<String, String> sideTables, String mapping, byte[] pseudonymKey, SweepSettings settings, BudgetSettings budget,
                           String earlier, LocalDate compareWith, Instant now, String version) {
    public SweepRequest {
        reports = List.copyOf(reports);
        sideTables = Map.copyOf(sideTables);
    }

    /** The same inputs as they were on an earlier date, compared with nothing. */
    SweepRequest on(LocalDate date) {
        return new SweepRequest(reports, sideTables, mapping, pseudonymKey, settings.withAsOf(date), budget, null, null, now, version);
    }

    Pseudonyms pseudonyms() {
        return Pseudonyms.of(pseudonymKey);
    }

    /** How late a reading may be. */
    Limits limits() {
        LocalDate asOf = settings.asOf();
        return new Limits(now, asOf == null ? null : asOf.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().minusNanos(1));
    }
}
