package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.DriveId;
import org.wearledger.model.Failures;
import org.wearledger.model.Price;
import org.wearledger.model.Repair;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.RepairSummary.Count;
import org.wearledger.model.RepairSummary.StockNeed;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.NextCount;

/** What repairs cost by reason and quarter, and what each shop fits in a quarter. */
public final class Repairs {
    private static final String NO_SITE = "not known";

    private final FiscalCalendar calendar;
    private final LocalDate until;

    private Repairs(FiscalCalendar calendar, LocalDate until) {
        this.calendar = calendar;
        this.until = until;
    }

    /**
     * Of these repairs. Quarters count from the one of the first repair of any shop; what has passed of the present one counts as its part.
     *
     * @param later how many others are after the as-of date
     * @param machineSites by folded machine id
     * @param prices whose spelling of an item goes first
     * @param until the last day that repairs are known of
     */
    public static RepairSummary summary(List<Repair> repairs, int later, RepairSummary.DeadDrives dead, Map<String, String> machineSites, Collection<Price> prices,
                                        LocalDate until, int fiscalYearStartMonth) {
        LocalDate first = repairs.stream().map(Repair::date).min(Comparator.naturalOrder()).orElse(null);
        if (first == null) {
            return RepairSummary.none();
        }
        Repairs all = new Repairs(new FiscalCalendar(fiscalYearStartMonth), until);
        LocalDate from = all.calendar.of(first).from();
        return new RepairSummary(from, UsablePrices.currencyOfMost(List.copyOf(prices)), all.counts(repairs), dead, all.stock(repairs, from, machineSites, prices), Failures.none(Failures.Basis.TOO_FEW), later, 0);
    }

    private List<Count> counts(List<Repair> done) {
        Map<LocalDate, Map<Repair.Reason, List<Repair>>> groups = done.stream().collect(Collectors.groupingBy(repair -> calendar.of(repair.date()).from(), TreeMap::new,
            Collectors.groupingBy(Repair::reason, TreeMap::new, Collectors.toList())));
        List<Count> counts = new ArrayList<>();
        groups.forEach((quarter, byReason) -> byReason.forEach((reason, rows) -> counts.add(new Count(calendar.of(quarter).label(), reason,
            (int) rows.stream().map(row -> DriveId.fold(row.ticket()) + "\0" + DriveId.fold(row.machineId())).distinct().count(),
            rows.stream().map(Repair::cost).filter(cost -> cost != null).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add),
            (int) rows.stream().filter(row -> row.cost() == null).count()))));
        return counts;
    }

    private List<StockNeed> stock(List<Repair> done, LocalDate from, Map<String, String> machineSites, Collection<Price> prices) {
        double quarters = (ChronoUnit.DAYS.between(from, until) + 1) / SweepSettings.DAYS_PER_QUARTER;
        Map<String, String> spelt = prices.stream().collect(Collectors.toMap(price -> DriveId.fold(price.item()), Price::item, (one, other) -> one));
        Map<String, Map<String, Integer>> fitted = new TreeMap<>();
        done.stream().filter(repair -> repair.action() != null && UsablePrices.isKnown(repair.action())).forEach(repair -> {
            String site = repair.site() != null ? repair.site() : machineSites.get(DriveId.fold(repair.machineId()));
            fitted.computeIfAbsent(site == null ? NO_SITE : site, key -> new TreeMap<>())
                .merge(spelt.getOrDefault(DriveId.fold(repair.action()), repair.action()), 1, Integer::sum);
        });
        List<StockNeed> needs = new ArrayList<>();
        fitted.forEach((site, items) -> items.forEach((item, count) -> {
            NextCount next = new NextCount(count, quarters);
            needs.add(new StockNeed(site, item, count, quarters, next.quantile(0.1), next.quantile(0.5), next.quantile(0.9)));
        }));
        return needs;
    }
}
