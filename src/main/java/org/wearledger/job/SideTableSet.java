package org.wearledger.job;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.wearledger.budget.Budgets;
import org.wearledger.history.Limits;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.Mappings;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.Pseudonyms;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.SideTable;
import org.wearledger.intake.SideTables;
import org.wearledger.model.Decision;
import org.wearledger.model.DriveId;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Outcome;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.Rating;
import org.wearledger.model.Repair;
import org.wearledger.model.SourcePlace;

/**
 * The side tables of one sweep: the one that an option names, else the one at the top of a swept folder, else the one in a pack, else none.
 *
 * @param names to print
 * @param files by the name that a folder has them under, such as {@code ratings.csv}
 */
record SideTableSet(SideTable<Rating> ratings, SideTable<InventoryEntry> inventory, SideTable<Price> prices, SideTable<Repair> repairs, SideTable<Decision> decisions,
                    List<String> names,
                    Map<String, ReportFile> files) {

    private interface Loader<T extends Serializable> {
        SideTable<T> load(ReportFile file, FieldMapping mapping) throws IOException;
    }

    static SideTableSet load(SweepRequest request, FoundFiles found, Mappings mappings) throws IOException {
        Search search = new Search(request, found, mappings, new ArrayList<>(), new TreeMap<>());
        Pseudonyms pseudonyms = request.pseudonyms();
        LocalDate today = day(request.now());
        return new SideTableSet(search.load("ratings", (file, mapping) -> SideTables.ratings(file)),
            pseudonymised(search.load("inventory", (file, mapping) -> SideTables.inventory(file, latestService(request), mapping)), pseudonyms::of),
            usable(search.load("prices", (file, mapping) -> SideTables.prices(file))),
            pseudonymised(search.load("repairs", (file, mapping) -> SideTables.repairs(file, mapping, today)), pseudonyms::of),
            pseudonymised(search.load("decisions", (file, mapping) -> SideTables.decisions(file, mapping, today)), pseudonyms::of),
            search.names, search.files);
    }

    /** The as-of date, else the day of the sweep. */
    private static LocalDate latestService(SweepRequest request) {
        return request.settings().asOf() != null ? request.settings().asOf() : day(request.now());
    }

    private static LocalDate day(Instant moment) {
        return LocalDate.ofInstant(moment, ZoneOffset.UTC);
    }

    /** Rows found, in all of the tables. */
    long rows() {
        return ratings.rows() + inventory.rows() + prices.rows() + repairs.rows() + decisions.rows();
    }

    /** Rows that are used. */
    long rowsRead() {
        return (long) ratings.values().size() + inventory.values().size() + prices.values().size() + repairs.values().size() + decisions.values().size();
    }

    /** By folded machine id, the day its drive was replaced, where the inventory tells one within the limits. */
    Map<String, LocalDate> drivesReplacedOn(Limits limits) {
        Map<String, LocalDate> replacedOn = new HashMap<>();
        inventory.values().stream().filter(entry -> entry.driveReplacedOn() != null && limits.admit(entry.driveReplacedOn().atStartOfDay(ZoneOffset.UTC).toInstant()))
            .forEach(entry -> replacedOn.put(DriveId.fold(entry.machineId()), entry.driveReplacedOn()));
        return replacedOn;
    }

    /** Those that lie within the limits. */
    List<Repair> repairs(Limits limits) {
        return repairs.values().stream().filter(repair -> limits.admit(repair.date().atStartOfDay(ZoneOffset.UTC).toInstant())).toList();
    }

    List<Problem> problems() {
        List<Problem> all = new ArrayList<>(ratings.problems());
        all.addAll(inventory.problems());
        all.addAll(prices.problems());
        all.addAll(repairs.problems());
        all.addAll(decisions.problems());
        return all;
    }

    /** Finds and reads the tables of one request, one after another; {@code names} and {@code files} are those found so far. */
    private record Search(SweepRequest request, FoundFiles found, Mappings mappings, List<String> names, Map<String, ReportFile> files) {
        <T extends Serializable> SideTable<T> load(String table, Loader<T> loader) throws IOException {
            ReportFile file = file(table);
            if (file == null) {
                return SideTable.none();
            }
            files.put(table + ".csv", file);
            FieldMapping mapping = mappings.of(file.name());
            if (request.pseudonyms().isNone()) {
                names.add(file.name());
                return loader.load(file, mapping);
            }
            names.add(table + ".csv");
            try {
                SideTable<T> loaded = loader.load(new ReportFile(file.path(), table + ".csv"), mapping);
                return new SideTable<>(loaded.values(), loaded.places(), request.pseudonyms().problemsOfTable(loaded.problems()), loaded.rows());
            } catch (InputMissingException e) {
                throw new InputMissingException("the table of " + table + " cannot be used; without --pseudonymise it is said why");
            }
        }

        /** {@code null} for none. */
        private ReportFile file(String table) throws IOException {
            String named = request.sideTables().get(table);
            if (named != null && !Files.isRegularFile(Path.of(named))) {
                throw new InputMissingException("no such file: " + named);
            }
            if (named != null) {
                return new ReportFile(Path.of(named).toAbsolutePath().toString(), named.replace('\\', '/'));
            }
            List<ReportFile> candidates = found.sideTables().getOrDefault(table + ".csv", PackFolder.tables(found.packs(), table + ".csv"));
            if (candidates.size() > 1) {
                throw new InputMissingException("several tables of " + table + ": "
                    + String.join(", ", candidates.stream().map(ReportFile::name).toList()) + "; name one with --" + table);
            }
            return candidates.isEmpty() ? null : candidates.get(0);
        }
    }

    /** A price may be well written and yet none that anything can call for. */
    private static SideTable<Price> usable(SideTable<Price> prices) {
        Outcome<Price> usable = Budgets.usable(prices.values(), prices.places());
        List<Problem> problems = new ArrayList<>(prices.problems());
        problems.addAll(usable.problems());
        Set<Price> used = Set.copyOf(usable.values());
        List<SourcePlace> places = IntStream.range(0, prices.values().size()).filter(i -> used.contains(prices.values().get(i)))
            .mapToObj(i -> prices.places().get(i)).toList();
        return new SideTable<>(usable.values(), places, problems, prices.rows());
    }

    private static <T extends Serializable> SideTable<T> pseudonymised(SideTable<T> table, UnaryOperator<T> pseudonyms) {
        return new SideTable<>(table.values().stream().map(pseudonyms).toList(), table.places(), table.problems(), table.rows());
    }
}
