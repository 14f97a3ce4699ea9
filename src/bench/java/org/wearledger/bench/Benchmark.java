package org.wearledger.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;

/**
 * Whole processes, interleaved, each against the floor or peer of the same run. Arguments: the distribution's folder, a folder for
 * inputs (kept), rounds, and which parts: start, two-million, many-files, growth, pack.
 */
final class Benchmark {
    private static final Set<Integer> DONE = Set.of(0, 3);

    private final Path distribution;
    private final Path work;
    private final int rounds;
    private final Inputs inputs;

    private Benchmark(Path distribution, Path work, int rounds) {
        this.distribution = distribution;
        this.work = work;
        this.rounds = rounds;
        inputs = new Inputs(work, distribution.resolve("bin/wearledger"));
    }

    public static void main(String[] arguments) throws IOException {
        Path work = Files.createDirectories(Path.of(arguments[1]).toAbsolutePath());
        Benchmark benchmark = new Benchmark(Path.of(arguments[0]).toAbsolutePath(), work, Integer.parseInt(arguments[2]));
        List<String> parts = List.of(arguments[3].split(","));
        if (parts.contains("start")) {
            benchmark.start();
        }
        if (parts.contains("two-million")) {
            benchmark.twoMillion();
        }
        if (parts.contains("many-files")) {
            benchmark.manyFiles();
        }
        if (parts.contains("growth")) {
            benchmark.growth();
        }
        if (parts.contains("pack")) {
            benchmark.pack();
        }
    }

    private void start() {
        List<String> floor = floor();
        Map<String, List<Measured>> runs = interleaved(Map.of("floor", () -> Measured.run(floor, Map.of(), DONE),
            "sample", () -> sweep(List.of("sample-reports"), "")));
        print("empty session", runs.get("floor"));
        print("sample sweep, whole", runs.get("sample"));
        bar("1", seconds(runs.get("sample")) / seconds(runs.get("floor")), 1.6);
        bar("1, seconds", seconds(runs.get("sample")), 8);
    }

    private void twoMillion() throws IOException {
        Path json = inputs.jsonLines(200_000, 10);
        Path csv = inputs.csv(json);
        List<String> floor = floor();
        Map<String, Supplier<Measured>> cases = new LinkedHashMap<>();
        cases.put("floor", () -> Measured.run(floor, Map.of(), DONE));
        cases.put("sql-start", () -> sql(Sql.nothing()));
        cases.put("sql-json", () -> sql(Sql.groupJson(json.toString())));
        cases.put("sql-csv", () -> sql(Sql.groupCsv(csv.toString())));
        cases.put("tokens", () -> Measured.run(java("org.wearledger.bench.Tokens", List.of(json.toString())), Map.of(), DONE));
        cases.put("check", () -> program(List.of("check", json.toString()), "-Xmx4g"));
        cases.put("json", () -> sweep(List.of(json.toString()), "-Xmx4g"));
        cases.put("csv", () -> sweep(List.of(csv.toString()), "-Xmx4g"));
        Map<String, List<Measured>> runs = interleaved(cases);
        runs.forEach((name, measured) -> print("two million: " + name, measured));
        double floorSeconds = seconds(runs.get("floor"));
        double sqlStart = seconds(runs.get("sql-start"));
        bar("2, JSON", (seconds(runs.get("json")) - floorSeconds) / (seconds(runs.get("sql-json")) - sqlStart), 4);
        bar("2, CSV", (seconds(runs.get("csv")) - floorSeconds) / (seconds(runs.get("sql-csv")) - sqlStart), 4);
    }

    private void manyFiles() throws IOException {
        Path many = inputs.manyFiles(inputs.jsonLines(3_000, 10));
        List<String> floor = floor();
        Map<String, Supplier<Measured>> cases = new LinkedHashMap<>();
        cases.put("floor", () -> Measured.run(floor, Map.of(), DONE));
        cases.put("sql-start", () -> sql(Sql.nothing()));
        cases.put("sql", () -> sql(Sql.groupJson(many + "/*/*.json")));
        cases.put("check", () -> program(List.of("check", many.toString()), ""));
        cases.put("sweep", () -> sweep(List.of(many.toString()), ""));
        Map<String, List<Measured>> runs = interleaved(cases);
        runs.forEach((name, measured) -> print("30,000 files: " + name, measured));
        bar("3", (seconds(runs.get("sweep")) - seconds(runs.get("floor"))) / (seconds(runs.get("sql")) - seconds(runs.get("sql-start"))), 1.5);
    }

    private void growth() throws IOException {
        Path small = inputs.jsonLines(10_000, 10);
        Path large = inputs.jsonLines(400_000, 25);
        Measured hundredThousand = sweep(List.of(small.toString()), "-Xmx4g");
        Measured tenMillion = sweep(List.of(large.toString()), "-Xmx4g");
        print("100,000 reports", List.of(hundredThousand));
        print("10,000,000 reports, -Xmx4g", List.of(tenMillion));
        bar("4", tenMillion.seconds() / 1e7 / (hundredThousand.seconds() / 1e5), 1.2);
    }

    private void pack() throws IOException {
        List<Path> quarters = inputs.quarters(400_000, 25);
        List<String> all = quarters.stream().map(Path::toString).toList();
        Path pack = work.resolve("earlier.pack");
        if (!Files.exists(pack)) {
            List<String> command = new ArrayList<>(List.of("pack", "--out", pack.toString()));
            command.addAll(all.subList(0, all.size() - 1));
            print("packing 24 of 25 quarters", List.of(program(command, "-Xmx4g")));
        }
        Measured raw = sweep(all, "-Xmx4g");
        Measured packed = sweep(List.of(pack.toString(), all.get(all.size() - 1)), "-Xmx4g");
        print("25 quarters raw", List.of(raw));
        print("24 quarters packed, 1 raw", List.of(packed));
        bar("5", packed.seconds() / raw.seconds(), 0.25);
    }

    private Measured sweep(List<String> reports, String javaOptions) {
        Path out = work.resolve("out");
        delete(out);
        List<String> command = new ArrayList<>(List.of("sweep", "--out", out.toString()));
        command.addAll(reports);
        return program(command, javaOptions);
    }

    private Measured program(List<String> arguments, String javaOptions) {
        List<String> command = new ArrayList<>(List.of(distribution.resolve("bin/wearledger").toString()));
        command.addAll(arguments);
        return Measured.run(command, Map.of("WEARLEDGER_JAVA_OPTS", javaOptions, "WEARLEDGER_CACHE", work.resolve("cache").toString()), DONE);
    }

    private Measured sql(String query) {
        return Measured.run(java("org.wearledger.bench.Sql", List.of(query)), Map.of(), DONE);
    }

    /** With an archive of its own classes and the flags that the launcher gives small inputs. */
    private List<String> floor() {
        sweep(List.of("sample-reports"), "");
        Path archive = work.resolve("floor.jsa");
        List<String> flags = List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xlog:disable", "--add-opens=java.base/java.nio=ALL-UNNAMED",
            "--add-opens=java.base/sun.nio.ch=ALL-UNNAMED", "--add-opens=java.base/java.lang=ALL-UNNAMED", "--add-opens=java.base/java.lang.invoke=ALL-UNNAMED",
            "--add-opens=java.base/java.util=ALL-UNNAMED", "--add-opens=java.base/java.net=ALL-UNNAMED", "--add-opens=java.base/sun.security.action=ALL-UNNAMED");
        if (!Files.exists(archive)) {
            Measured.run(session(flags, "-XX:ArchiveClassesAtExit=" + archive), Map.of(), DONE);
        }
        return session(flags, "-XX:SharedArchiveFile=" + archive);
    }

    private List<String> session(List<String> flags, String archive) {
        List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString()));
        command.addAll(flags);
        command.addAll(List.of(archive, "-cp", distributionJars() + ":" + jarOfBenchmark(), "org.wearledger.bench.EmptySession"));
        return command;
    }

    private String distributionJars() {
        try (Stream<Path> jars = Files.list(distribution.resolve("lib"))) {
            return String.join(":", jars.map(Path::toString).sorted().toList());
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    /** A jar, since an archive of classes takes none from a folder. */
    private static String jarOfBenchmark() {
        return System.getProperty("bench.jar");
    }

    private static List<String> java(String main, List<String> arguments) {
        List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp", System.getProperty("java.class.path"), main));
        command.addAll(arguments);
        return command;
    }

    private Map<String, List<Measured>> interleaved(Map<String, Supplier<Measured>> cases) {
        Map<String, List<Measured>> runs = new LinkedHashMap<>();
        for (int round = 0; round < rounds; round++) {
            cases.forEach((name, run) -> runs.computeIfAbsent(name, key -> new ArrayList<>()).add(run.get()));
        }
        return runs;
    }

    private static double seconds(List<Measured> runs) {
        return runs.stream().map(Measured::seconds).sorted().toList().get(runs.size() / 2);
    }

    private static void print(String what, List<Measured> runs) {
        List<Double> sorted = runs.stream().map(Measured::seconds).sorted(Comparator.naturalOrder()).toList();
        System.out.printf(Locale.ROOT, "%-34s median %7.2f s (%.2f to %.2f, %d runs), at most %,d MiB resident%n", what, seconds(runs), sorted.get(0),
            sorted.get(sorted.size() - 1), runs.size(), runs.stream().mapToLong(Measured::peakMegabytes).max().orElse(0));
    }

    private static void bar(String name, double ratio, double most) {
        System.out.printf(Locale.ROOT, "  bar %s: %.2f, at most %.2f: %s%n", name, ratio, most, ratio <= most ? "met" : "MISSED");
    }

    private static void delete(Path folder) {
        if (!Files.exists(folder)) {
            return;
        }
        try (Stream<Path> tree = Files.walk(folder)) {
            for (Path path : tree.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
