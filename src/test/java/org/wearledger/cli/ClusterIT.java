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
            "-cp", folder.resolve("jars").toRealPath() + "/*", "-Dlog4j2.configurationFile=" + folder.resolve("log4j2.properties").toUri()));
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

    private static Started sweep(Object reports, String out, Object... more) throws Exception {
        List<Object> arguments = new ArrayList<>(List.of("sweep", reports, "--out", folder.resolve(out)));
        arguments.addAll(Arrays.asList(more));
        return Started.launcher(folder, Map.of("SPARK_LOCAL_IP", "127.0.0.1", "WEARLEDGER_JAVA_OPTS",
            "-Dspark.executor.extraJavaOptions=-Dlog4j2.configurationFile=" + folder.resolve("log4j2.properties").toUri()), arguments.toArray());
    }

    private static void assertSame(String one, String other) {
        for (String file : FILES) {
            assertThat(folder.resolve(one).resolve(file)).as(file).hasSameBinaryContentAs(folder.resolve(other).resolve(file));
        }
    }

    @Test
    void aClusterGivesTheSameBytesEvenWhenAWorkerDiesOnTheWay() throws Exception {
        assertThat(Runs.of("sweep", "sample-reports", "--out", folder.resolve("local")).exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        Started sample = sweep("sample-reports", "cluster", "--master", master);
        assertThat(sample.exitCode()).as(sample.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertSame("cluster", "local");

        Runs.of("simulate", "--drives", 800, "--quarters", 8, "--seed", 2, "--out", folder.resolve("fleet"));
        assertThat(Runs.of("sweep", folder.resolve("fleet/reports"), "--out", folder.resolve("fleet-local"), "--partitions", 12).exitCode()).isEqualTo(ExitCode.DONE);
        CompletableFuture<Started> run = CompletableFuture.supplyAsync(() -> {
            try {
                return sweep(folder.resolve("fleet/reports"), "fleet-cluster", "--master", master, "--partitions", 12);
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
        });
        waitFor(() -> hasFinishedTasks("0001") || run.isDone());
        assertThat(run.isDone()).as("the worker is killed while the sweep runs").isFalse();
        kill(PROCESSES.get(1));
        assertThat(run.get().exitCode()).as(run.get().err()).isEqualTo(ExitCode.DONE);
        assertSame("fleet-cluster", "fleet-local");
    }

    /** Whether the worker to be killed has done a part of what the cluster was given as its second run. */
    private static boolean hasFinishedTasks(String application) throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("worker1"))) {
            for (Path printed : files.filter(path -> path.toString().matches(".*/app-[^/]*-" + application + "/[^/]*/stdout")).toList()) {
                if (Files.readString(printed).contains("Finished task")) {
                    return true;
                }
            }
        }
        return false;
    }
}
