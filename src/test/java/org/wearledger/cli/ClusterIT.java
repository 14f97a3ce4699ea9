package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Spark's own standalone master and two workers, each a process of its own on loopback: the same bytes as on one machine. */
class ClusterIT {
    private static final List<String> FILES = List.of("machines.csv", "models.csv", "problems.csv", "replacements.csv", "budget.csv", "totals.csv", "items.csv",
        "work-list.csv", "coverage.csv", "warranty.csv", "summary.md");

    private static final int MILLIS_BETWEEN_LOOKS = 100;
    /** Ten minutes: only what hangs is to be found. */
    private static final int MOST_WAITS = 6_000;

    @TempDir
    static Path folder;
    private static final List<Process> PROCESSES = new ArrayList<>();
    private static String master;

    @BeforeAll
    static void startACluster() throws Exception {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        master = "spark://127.0.0.1:" + port;
        Files.createSymbolicLink(folder.resolve("jars"), Started.HOME.resolve("lib"));
        Files.writeString(folder.resolve("log4j2.properties"), """
            appender.console.type = Console
            appender.console.name = console
            appender.console.layout.type = PatternLayout
            appender.console.layout.pattern = %m%n
            rootLogger.level = info
            rootLogger.appenderRef.console.ref = console
            """);
        start("master", "org.apache.spark.deploy.master.Master", "--host", "127.0.0.1", "--port", Integer.toString(port), "--webui-port", "0");
        waitFor(() -> isOpen(port));
        for (String worker : List.of("worker1", "worker2")) {
            start(worker, "org.apache.spark.deploy.worker.Worker", "--host", "127.0.0.1", "--cores", "1", "--memory", "1g", "--webui-port", "0",
                "--work-dir", folder.resolve(worker).toString(), master);
        }
        waitFor(() -> log("worker1").contains("Successfully registered") && log("worker2").contains("Successfully registered"));
    }

    private static void start(String name, String... mainAndArguments) throws IOException {
        List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-Xmx256m",
            "-Dlog4j2.configurationFile=" + folder.resolve("log4j2.properties").toUri()));
        command.addAll(Started.classes());
        command.addAll(Arrays.asList(mainAndArguments));
        ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(folder.resolve(name + ".log").toFile());
        builder.environment().putAll(Map.of("SPARK_HOME", folder.toString(), "SPARK_SCALA_VERSION", "2.13", "SPARK_LOCAL_IP", "127.0.0.1",
            "SPARK_NO_DAEMONIZE", "1",
            // What a worker starts takes this over.
            "JDK_JAVA_OPTIONS", "-XX:TieredStopAtLevel=1 -XX:+UseSerialGC"));
        PROCESSES.add(builder.start());
    }

    private interface Condition {
        boolean holds() throws IOException;
    }

    private static void waitFor(Condition condition) throws Exception {
        for (int i = 0; i < MOST_WAITS; i++) {
            if (condition.holds()) {
                return;
            }
            TimeUnit.MILLISECONDS.sleep(MILLIS_BETWEEN_LOOKS);
        }
        throw new AssertionError("waited in vain:\n" + log("master") + log("worker1"));
    }

    private static boolean isOpen(int port) {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            return socket.isConnected();
        } catch (IOException e) {
            return false;
        }
    }

    private static String log(String name) throws IOException {
        Path log = folder.resolve(name + ".log");
        return Files.exists(log) ? Files.readString(log) : "";
    }

    @AfterAll
    static void stopIt() throws IOException {
        PROCESSES.forEach(ClusterIT::kill);
        Files.deleteIfExists(folder.resolve("jars"));
    }

    private static void kill(Process process) {
        process.descendants().forEach(ProcessHandle::destroyForcibly);
        process.destroyForcibly();
    }

    /** The sample with its oddities, and the quarters of a fleet, so that there is something to do when the worker dies. */
    private static Object[] sweep(String out, Object... more) throws IOException {
        List<Object> arguments = new ArrayList<>(List.of("sweep", "sample-reports", "--partitions", 12, "--out", folder.resolve(out)));
        try (Stream<Path> quarters = Files.list(folder.resolve("fleet/reports"))) {
            arguments.addAll(quarters.filter(Files::isDirectory).sorted().toList());
        }
        arguments.addAll(Arrays.asList(more));
        return arguments.toArray();
    }

    @Test
    void aClusterGivesTheSameBytesEvenWhenAWorkerDiesOnTheWay() throws Exception {
        Runs.of("simulate", "--drives", 800, "--quarters", 8, "--seed", 2, "--out", folder.resolve("fleet"));
        CompletableFuture<Started> run = CompletableFuture.supplyAsync(() -> {
            try {
                return Started.launcher(folder, Map.of("SPARK_LOCAL_IP", "127.0.0.1", "WEARLEDGER_JAVA_OPTS",
                    "-Dspark.executor.extraJavaOptions=-Dlog4j2.configurationFile=" + folder.resolve("log4j2.properties").toUri()), sweep("cluster", "--master", master));
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
        });
        waitFor(() -> hasFinishedTasks() || run.isDone());
        assertThat(run.isDone()).as("the worker is killed while the sweep runs").isFalse();
        kill(PROCESSES.get(1));
        assertThat(run.get().exitCode()).as(run.get().err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        Runs local = Runs.of(sweep("local"));
        assertThat(local.exitCode()).as(local.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        for (String file : FILES) {
            assertThat(folder.resolve("cluster").resolve(file)).as(file).hasSameBinaryContentAs(folder.resolve("local").resolve(file));
        }
    }

    /** Whether the worker to be killed has done a part of it. */
    private static boolean hasFinishedTasks() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("worker1"))) {
            for (Path printed : files.filter(path -> path.toString().matches(".*/app-[^/]*/[^/]*/stdout")).toList()) {
                if (Files.readString(printed).contains("Finished task")) {
                    return true;
                }
            }
        }
        return false;
    }
}
