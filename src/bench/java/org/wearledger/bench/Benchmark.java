package org.wearledger.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;

/**
 * Whole processes, interleaved, each beside what it is held against: an older distribution, an empty session, an SQL engine. Arguments: the
 * distribution's folder, a folder for inputs (kept), rounds, and which parts: start, two-million, many-files, pack, growth. The system property
 * {@code bench.older} is the folder of the older distribution, or {@code bench.older.commit} what to build it from; both may be empty.
 */
final class Benchmark {
    private static final String LARGE = "-Xmx4g";

    private final Path work;
    private final int rounds;
    private final Programs here;
    /** {@code null} for none. */
    private final Programs older;
    private final Inputs inputs;

    private Benchmark(Path distribution, Path work, int rounds, Path older) {
        this.work = work;
        this.rounds = rounds;
        here = new Programs(distribution, work);
        this.older = older == null ? null : new Programs(older, work);
        inputs = new Inputs(work, here.launcher());
    }

    public static void main(String[] arguments) throws IOException {
        Path work = Files.createDirectories(Path.of(arguments[1]).toAbsolutePath());
        String older = System.getProperty("bench.older", "");
        String commit = System.getProperty("bench.older.commit", "");
        Benchmark benchmark = new Benchmark(Path.of(arguments[0]).toAbsolutePath(), work, Integer.parseInt(arguments[2]),
            !older.isEmpty() ? Path.of(older).toAbsolutePath() : commit.isEmpty() ? null : Programs.built(commit, work));
        for (String part : arguments[3].split(",")) {
            switch (part) {
                case "start" -> benchmark.start();
                case "two-million" -> benchmark.twoMillion();
                case "many-files" -> benchmark.manyFiles();
                case "pack" -> benchmark.pack();
                case "growth" -> benchmark.growth();
                default -> throw new IllegalArgumentException("no part of the benchmark is called " + part);
            }
        }
    }

    private void start() {
        List<Path> sample = List.of(Path.of("sample-reports"));
        here.sweep("", sample);
        here.prepareFloor();
        Map<String, Supplier<Measured>> cases = new LinkedHashMap<>();
        cases.put("empty session", here::floor);
        sweeps(cases, "sweep", "", sample.get(0));
        cases.put("first sweep", () -> here.firstSweep(sample));
        Runs runs = new Runs("sample", cases);
        runs.bar("4", Measured::seconds, "sweep", "empty session", 1.6);
        runs.bar("4, the first sweep", Measured::seconds, "first sweep", "empty session", 1.6);
    }

    private void twoMillion() throws IOException {
        Path json = inputs.jsonLines(200_000, 10);
        Path csv = inputs.csv(json);
        Map<String, Supplier<Measured>> cases = new LinkedHashMap<>();
        cases.put("sql-start", () -> Programs.sql(Sql.nothing()));
        cases.put("sql-json", () -> Programs.sql(Sql.groupJson(json.toString())));
        cases.put("sql-csv", () -> Programs.sql(Sql.groupCsv(csv.toString())));
        cases.put("tokens", () -> Programs.peer("Tokens", json.toString()));
        cases.put("check", () -> here.run(LARGE, List.of("check", json.toString())));
        sweeps(cases, "json", LARGE, json);
        sweeps(cases, "csv", LARGE, csv);
        Runs runs = new Runs("two million", cases);
        for (String form : List.of("json", "csv")) {
            runs.bar("1, processor time, " + form, Measured::processorSeconds, form, "older-" + form, 0.40);
            runs.bar("1, wall time, " + form, Measured::seconds, form, "older-" + form, 0.45);
            runs.bar("1, memory, " + form, Measured::peakMegabytes, form, "older-" + form, 1);
            runs.bar("beside the SQL engine, " + form, Measured::seconds, form, "sql-" + form, Double.NaN);
        }
    }

    private void manyFiles() throws IOException {
        Path many = inputs.manyFiles(inputs.jsonLines(3_000, 10));
        Map<String, Supplier<Measured>> cases = new LinkedHashMap<>();
        cases.put("sql", () -> Programs.sql(Sql.groupJson(many + "/*/*.json")));
        cases.put("check", () -> here.run("", List.of("check", many.toString())));
        sweeps(cases, "files", "", many);
        Runs runs = new Runs("30,000 files", cases);
        runs.bar("3", Measured::seconds, "files", "older-files", 0.4);
        runs.bar("beside the SQL engine", Measured::seconds, "files", "sql", Double.NaN);
    }

    private void sweeps(Map<String, Supplier<Measured>> cases, String name, String javaOptions, Path reports) {
        if (older != null) {
            cases.put("older-" + name, () -> older.sweep(javaOptions, List.of(reports)));
        }
        cases.put(name, () -> here.sweep(javaOptions, List.of(reports)));
    }

    private void pack() throws IOException {
        List<Path> quarters = inputs.quarters(200_000, 10);
        Path pack = work.resolve("earlier.pack");
        List<String> command = new ArrayList<>(List.of("pack", "--out", pack.toString()));
        quarters.subList(0, quarters.size() - 1).forEach(quarter -> command.add(quarter.toString()));
        Programs.delete(pack);
        print("packing nine quarters", List.of(here.run(LARGE, command)));
        Map<String, Supplier<Measured>> cases = new LinkedHashMap<>();
        cases.put("raw", () -> here.sweep(LARGE, quarters));
        cases.put("packed", () -> here.sweep(LARGE, List.of(pack, quarters.get(quarters.size() - 1))));
        new Runs("ten quarters", cases).bar("2", Measured::seconds, "packed", "raw", 0.5);
    }

    private void growth() throws IOException {
        List<Path> small = List.of(inputs.jsonLines(10_000, 10));
        List<Path> large = List.of(inputs.jsonLines(400_000, 25));
        Map<String, Supplier<Measured>> cases = new LinkedHashMap<>();
        cases.put("100,000 reports", () -> here.sweep(LARGE, small));
        cases.put("10,000,000 reports", () -> here.sweep(LARGE, large));
        new Runs("growth", cases).bar("a hundred times the reports", Measured::seconds, "10,000,000 reports", "100,000 reports", Double.NaN);
    }

    /** All cases in turn, as often as there are rounds. */
    private final class Runs {
        private final Map<String, List<Measured>> byCase = new LinkedHashMap<>();

        Runs(String what, Map<String, Supplier<Measured>> cases) {
            for (int round = 0; round < rounds; round++) {
                cases.forEach((name, run) -> byCase.computeIfAbsent(name, key -> new ArrayList<>()).add(run.get()));
            }
            byCase.forEach((name, measured) -> print(what + ": " + name, measured));
        }

        /** The ratio of medians; nothing where one of the cases was not run. */
        void bar(String name, ToDoubleFunction<Measured> figure, String one, String other, double most) {
            if (byCase.containsKey(other)) {
                double ratio = median(byCase.get(one), figure) / median(byCase.get(other), figure);
                System.out.printf(Locale.ROOT, "  %s: %.2f%s%n", Double.isNaN(most) ? name : "bar " + name, ratio,
                    Double.isNaN(most) ? "" : String.format(Locale.ROOT, ", at most %.2f: %s", most, ratio <= most ? "met" : "MISSED"));
            }
        }
    }

    private static double median(List<Measured> runs, ToDoubleFunction<Measured> figure) {
        return runs.stream().mapToDouble(figure).sorted().toArray()[runs.size() / 2];
    }

    private static void print(String what, List<Measured> runs) {
        double[] sorted = runs.stream().mapToDouble(Measured::seconds).sorted().toArray();
        System.out.printf(Locale.ROOT, "%-30s median %7.2f s (%.2f to %.2f, %d runs), processor %7.2f s, at most %,.0f MiB resident%n", what, sorted[sorted.length / 2],
            sorted[0], sorted[sorted.length - 1], runs.size(), median(runs, Measured::processorSeconds), runs.stream().mapToDouble(Measured::peakMegabytes).max().orElse(0));
    }
}
