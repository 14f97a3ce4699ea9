package org.wearledger.budget;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.function.BiPredicate;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Funding;
import org.wearledger.model.ItemDemand;
import org.wearledger.model.ItemOrder;
import org.wearledger.model.LineDecision;
import org.wearledger.model.PlannedReplacement;

/** The money of each quarter and of several together. Whatever is rounded here the workbook rounds, in the same place. */
final class Funds {
    private static final BigDecimal ZERO = BigDecimal.ZERO.setScale(2);
    private static final int PLACES = 12;
    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

    private final List<PlannedReplacement> lines;
    private final List<ItemOrder> orders;
    private final List<FiscalCalendar.Quarter> quarters;
    private final List<String> labels;
    /** The length of each quarter. */
    private final List<Double> years;
    private final PriceBook prices;
    private final BudgetSettings settings;
    private final BigDecimal withTax;

    Funds(List<PlannedReplacement> lines, List<ItemOrder> orders, List<FiscalCalendar.Quarter> quarters, List<Double> years, PriceBook prices, BudgetSettings settings) {
        this.lines = lines;
        this.orders = orders;
        this.quarters = quarters;
        this.years = years;
        labels = quarters.stream().map(FiscalCalendar.Quarter::label).toList();
        this.prices = prices;
        this.settings = settings;
        withTax = BigDecimal.ONE.add(BigDecimal.valueOf(settings.money().vatPercent()).divide(HUNDRED));
    }

    /**
     * @param failures cost of random failures
     * @param demand of the quarter; empty without probabilities
     * @param priced whether all has its price: what a missing one makes unknown counts 0
     */
    Funding quarter(int quarter, BigDecimal failures, List<ItemDemand> demand, boolean priced) {
        List<PlannedReplacement> bought = bought(quarter, quarter);
        BigDecimal identified = sum(bought, line -> !line.isRefresh(), PlannedReplacement::amount);
        BigDecimal refresh = sum(bought, PlannedReplacement::isRefresh, PlannedReplacement::amount);
        BigDecimal further = cents(numbers(demand, ItemDemand::further, ItemDemand::item));
        BigDecimal all = sum(bought, line -> true, Funds::dearer)
            .add(numbers(demand, ItemDemand::further, ItemDemand::upperItem)).subtract(numbers(demand, ItemDemand::further, ItemDemand::item)).max(BigDecimal.ZERO);
        BigDecimal machines = !priced ? ZERO : cents(all.multiply(BigDecimal.valueOf(settings.money().machineShare())));
        BigDecimal reserve = !priced ? ZERO : forWear(demand);
        BigDecimal putOff = putOff(lines, quarter);
        BigDecimal stock = total(orders, order -> order.quarter() == quarter, ItemOrder::saved);
        BigDecimal packs = total(orders, order -> order.quarter() == quarter, ItemOrder::packs);
        BigDecimal warranty = cents(warranty(bought));
        Funding net = new Funding(identified, refresh, further, machines, reserve, putOff, failures, stock, packs, warranty, ZERO, ZERO,
            cents(cents(all).subtract(machines).multiply(withTax)), worst(quarter, quarter, failures.add(putOff), demand));
        return new Funding(identified, refresh, further, machines, reserve, putOff, failures, stock, packs, warranty, cents(net.net().multiply(withTax.subtract(BigDecimal.ONE))), ZERO,
            net.allMachines(), net.worst());
    }

    private BigDecimal forWear(List<ItemDemand> demand) {
        return cents(numbers(demand, ItemDemand::reserve, ItemDemand::item)).max(ZERO);
    }

    /**
     * What a year needs less than its quarters.
     *
     * @param year its demand, {@code quarters} that of each of its quarters; empty without probabilities or prices
     */
    BigDecimal relief(List<ItemDemand> year, List<List<ItemDemand>> quarters) {
        return cents(quarters.stream().map(this::forWear).reduce(ZERO, BigDecimal::add).subtract(forWear(year)).max(ZERO).multiply(withTax));
    }

    /** With the dearer choice of every line and of what comes beyond them, in nine of ten cases. */
    BigDecimal worst(int first, int last, BigDecimal failures, List<ItemDemand> demand) {
        return cents(numbers(demand, ItemDemand::worst, ItemDemand::upperItem).add(sum(bought(first, last), line -> true, line -> line.amount().add(dearer(line)))).add(failures).multiply(withTax));
    }

    /** A machine that takes the place of one has no dearer choice. */
    private static BigDecimal dearer(PlannedReplacement line) {
        return line.upperAmount().subtract(line.amount()).max(ZERO);
    }

    /** The chance that what is put off fails meanwhile, at its cost and the extra of what is not planned. */
    private BigDecimal putOff(List<PlannedReplacement> of, int quarter) {
        BigDecimal risk = cents(sum(of, line -> line.decision().choice() != LineDecision.Choice.BOUGHT && isBetween(line, (need, bought) -> need <= quarter && bought > quarter && quarter - need < settings.quartersAtRisk(line.standing())),
            this::riskPerYear).multiply(BigDecimal.valueOf(years.get(quarter))));
        return risk.subtract(sum(of, line -> isBetween(line, (need, bought) -> need < quarter && bought == quarter), this::countedBefore));
    }

    /** Of what is bought in the end, the part that was counted as a risk: nothing is bought twice. */
    private BigDecimal countedBefore(PlannedReplacement line) {
        int need = labels.indexOf(line.quarter());
        BigDecimal length = IntStream.range(need, boughtIn(line)).filter(quarter -> quarter - need < settings.quartersAtRisk(line.standing())).mapToObj(quarter -> BigDecimal.valueOf(years.get(quarter))).reduce(BigDecimal.ZERO, BigDecimal::add);
        return cents(line.amount().multiply(BigDecimal.valueOf(settings.failuresPerYearOf(line.standing()))).multiply(length));
    }

    private BigDecimal riskPerYear(PlannedReplacement line) {
        return cents(line.amount().add(settings.unplanned().extra()).multiply(BigDecimal.valueOf(settings.failuresPerYearOf(line.standing()))));
    }

    /** The maker is asked before the purchase, which must come before the warranty's end. */
    private BigDecimal warranty(List<PlannedReplacement> bought) {
        return sum(bought, line -> line.claim() && !line.isRefresh() && !line.claimUntil().isBefore(quarters.get(boughtIn(line)).from()), 
            line -> cents(prices.costOfUnit(line.item()).multiply(BigDecimal.ONE.subtract(perLine(line, order -> BigDecimal.valueOf(order.fromStock()))))))
            .multiply(BigDecimal.valueOf(settings.money().warrantyShare()));
    }

    /** What an order has, divided by the lines that need it. */
    private BigDecimal perLine(PlannedReplacement line, Function<ItemOrder, BigDecimal> figure) {
        ItemOrder order = orders.stream().filter(each -> each.quarter() == boughtIn(line) && each.item().equals(line.item())).findFirst().orElseThrow();
        return figure.apply(order).divide(BigDecimal.valueOf(order.needed()), PLACES, RoundingMode.HALF_UP);
    }

    /** What lines of one cost centre cause in a quarter, with tax, in cents. */
    BigDecimal own(List<PlannedReplacement> ofTheCentre, int quarter) {
        List<PlannedReplacement> bought = ofTheCentre.stream().filter(line -> boughtIn(line) == quarter).toList();
        BigDecimal machines = sum(bought, line -> true, Funds::dearer).multiply(BigDecimal.valueOf(settings.money().machineShare()));
        return cents(sum(bought, line -> true, PlannedReplacement::amount).add(machines).add(putOff(ofTheCentre, quarter)).subtract(warranty(bought))
            .add(sum(bought, line -> true, line -> perLine(line, order -> order.packs().subtract(order.saved())))).multiply(withTax));
    }

    private boolean isBetween(PlannedReplacement line, BiPredicate<Integer, Integer> test) {
        return test.test(labels.indexOf(line.quarter()), boughtIn(line));
    }

    /** A line that is not bought comes after all. */
    private int boughtIn(PlannedReplacement line) {
        int index = line.boughtIn() == null ? -1 : labels.indexOf(line.boughtIn());
        return index < 0 ? labels.size() : index;
    }

    /** Lines that are bought from one quarter to another. */
    List<PlannedReplacement> bought(int first, int last) {
        return lines.stream().filter(line -> boughtIn(line) >= first && boughtIn(line) <= last).toList();
    }

    private BigDecimal numbers(List<ItemDemand> demand, Function<ItemDemand, Double> number, Function<ItemDemand, String> item) {
        return IntStream.range(0, demand.size()).mapToObj(k -> BigDecimal.valueOf(number.apply(demand.get(k))).multiply(prices.costOfOne(item.apply(demand.get(k)))))
            .reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    private static BigDecimal sum(List<PlannedReplacement> lines, Predicate<PlannedReplacement> which, Function<PlannedReplacement, BigDecimal> amount) {
        return total(lines, which, amount);
    }

    private static <T> BigDecimal total(List<T> all, Predicate<T> which, Function<T, BigDecimal> amount) {
        return all.stream().filter(which).map(amount).reduce(ZERO, BigDecimal::add);
    }

    private static BigDecimal cents(BigDecimal amount) {
        return amount.setScale(2, RoundingMode.HALF_UP);
    }
}
