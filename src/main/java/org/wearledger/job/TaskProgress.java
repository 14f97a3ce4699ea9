package org.wearledger.job;

import java.util.HashMap;
import java.util.Map;
import org.apache.spark.ExceptionFailure;
import org.apache.spark.scheduler.SparkListener;
import org.apache.spark.scheduler.SparkListenerJobEnd;
import org.apache.spark.scheduler.SparkListenerJobStart;
import org.apache.spark.scheduler.SparkListenerTaskEnd;
import org.wearledger.model.Progress;

/** Counts Spark's tasks under the name that the job was given. Spark calls it from one thread. */
final class TaskProgress extends SparkListener {
    /** As Spark calls the executor of a local master. */
    private static final String HERE = "driver";
    private static final String DESCRIPTION = "spark.job.description";

    private final Progress progress;
    private final Map<Integer, String> jobOfStage = new HashMap<>();
    private final Map<String, int[]> doneAndTotal = new HashMap<>();

    TaskProgress(Progress progress) {
        this.progress = progress;
    }

    @Override
    public void onJobStart(SparkListenerJobStart start) {
        String name = start.properties().getProperty(DESCRIPTION, "working");
        int[] counts = doneAndTotal.computeIfAbsent(name, key -> new int[2]);
        scala.jdk.javaapi.CollectionConverters.asJava(start.stageInfos()).forEach(stage -> {
            jobOfStage.put(stage.stageId(), name);
            counts[1] += stage.numTasks();
        });
        progress.at(name, counts[0], counts[1]);
    }

    /** Stages whose results were there already are never run. */
    @Override
    public void onJobEnd(SparkListenerJobEnd end) {
        doneAndTotal.forEach((name, counts) -> counts[0] = counts[1]);
    }

    /** When a task of this process runs out of memory, the watch over threads learns of it: what waits for it may wait for ever. A cluster tries it again elsewhere. */
    @Override
    public void onTaskEnd(SparkListenerTaskEnd end) {
        Thread.UncaughtExceptionHandler watch = Thread.getDefaultUncaughtExceptionHandler();
        if (watch != null && HERE.equals(end.taskInfo().executorId()) && end.reason() instanceof ExceptionFailure failure && failure.className().equals(OutOfMemoryError.class.getName())) {
            watch.uncaughtException(Thread.currentThread(), new OutOfMemoryError(failure.description()));
        }
        String name = jobOfStage.get(end.stageId());
        if (name != null && end.reason() == org.apache.spark.Success$.MODULE$) {
            int[] counts = doneAndTotal.get(name);
            counts[0]++;
            progress.at(name, counts[0], counts[1]);
        }
    }
}
