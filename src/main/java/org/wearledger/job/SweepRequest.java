package org.wearledger.job;

import java.time.Instant;
import java.util.List;
import org.wearledger.model.SweepSettings;

/**
 * What to sweep.
 *
 * @param reports files, folders or patterns
 * @param ratings a ratings table, {@code null} for the one at the top of a swept folder; likewise the other tables
 * @param now the caller's clock: a reading dated more than a day later is set aside
 */
public record SweepRequest(List<String> reports, String ratings, String inventory, String prices,
                           SweepSettings settings, Instant now, String version) {
    public SweepRequest {
        reports = List.copyOf(reports);
    }
}
