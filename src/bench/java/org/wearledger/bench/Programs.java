package org.wearledger.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

/** What is started: a distribution's launcher, an empty Spark session on its jars, and the peers. */
record Programs(Path distribution, Path work) {
    private static final Set<Integer> DONE = Set.of(0, 3);
    /** Those that the launcher gives small inputs. */
    private static final List<String> FLAGS = List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xlog:disable", "--add-opens=java.base/java.nio=ALL-UNNAMED",
        "--add-opens=java.base/sun.nio.ch=ALL-UNNAMED", "--add-opens=java.base/java.lang=ALL-UNNAMED", "--add-opens=java.base/java.lang.invoke=ALL-UNNAMED",
        "--add-opens=java.base/java.util=ALL-UNNAMED", "--add-opens=java.base/java.net=ALL-UNNAMED", "--add-opens=java.base/sun.security.action=ALL-UNNAMED");

    /** The distribution of an earlier commit of this repository, built once and kept. */
    static Path built(String commit, Path work) {
        Path tree = work.resolve("older-" + commit);
        Path distribution = tree.resolve("target/wearledger");
        if (!Files.exists(tree)) {
            Measured.run(List.of("git", "worktree", "add", "--detach", tree.toString(), commit), Map.of(), Set.of(0));
        }
        if (!Files.exists(distribution)) {
            Measured.run(List.of("mvn", "-q", "-B", "-DskipTests", "-f", tree.toString(), "package"), Map.of(), Set.of(0));
        }
        return distribution;
    }

    Path launcher() {
        return distribution.resolve("bin/wearledger");
    }

    Measured sweep(String javaOptions, List<Path> reports) {
        return sweep(javaOptions, work.resolve("cache"), reports);
    }

    /** With nothing prepared by an earlier run. */
    Measured firstSweep(List<Path> reports) {
        Path cache = work.resolve("fresh-cache");
        delete(cache);
        return sweep("", cache, reports);
    }

    private Measured sweep(String javaOptions, Path cache, List<Path> reports) {
        Path out = work.resolve("out");
        delete(out);
        return run(javaOptions, cache, Stream.concat(Stream.of("sweep", "--out", out.toString()), reports.stream().map(Path::toString)).toList());
    }

    Measured run(String javaOptions, List<String> arguments) {
        return run(javaOptions, work.resolve("cache"), arguments);
    }

    private Measured run(String javaOptions, Path cache, List<String> arguments) {
        return Measured.run(Stream.concat(Stream.of(launcher().toString()), arguments.stream()).toList(),
            Map.of("WEARLEDGER_JAVA_OPTS", javaOptions, "WEARLEDGER_CACHE", cache.toString()), DONE);
    }

    /** The floor under every sweep, with an archive of its own classes, made anew: one of other jars is passed over without a word. */
    void prepareFloor() {
        Measured.run(session("-XX:ArchiveClassesAtExit="), Map.of(), DONE);
    }

    Measured floor() {
        return Measured.run(session("-XX:SharedArchiveFile="), Map.of(), DONE);
    }

    private List<String> session(String archive) {
        List<String> command = new ArrayList<>(List.of(java()));
        command.addAll(FLAGS);
        // A jar, since an archive of classes takes none from a folder.
        command.addAll(List.of(archive + work.resolve("floor.jsa"), "-cp", jars() + ":" + System.getProperty("bench.jar"), "org.wearledger.bench.EmptySession"));
        return command;
    }

    private String jars() {
        try (Stream<Path> jars = Files.list(distribution.resolve("lib"))) {
            // Anything but a jar among them, and Java passes over the archive.
            return String.join(":", jars.map(Path::toString).filter(name -> name.endsWith(".jar")).sorted().toList());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Measured sql(String query) {
        return peer("Sql", query);
    }

    /** One of the main classes beside this one. */
    static Measured peer(String main, String argument) {
        return Measured.run(List.of(java(), "-cp", System.getProperty("java.class.path"), "org.wearledger.bench." + main, argument), Map.of(), DONE);
    }

    private static String java() {
        return Path.of(System.getProperty("java.home"), "bin", "java").toString();
    }

    static void delete(Path folder) {
        if (!Files.exists(folder)) {
            return;
        }
        try (Stream<Path> tree = Files.walk(folder)) {
            for (Path path : tree.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
