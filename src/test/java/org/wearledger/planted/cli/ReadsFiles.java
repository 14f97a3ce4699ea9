package org.wearledger.planted.cli;

import org.wearledger.planted.intake.FileUtil;

/** The command line goes through the job. */
final class ReadsFiles {
    FileUtil files;

    void say() {
        System.out.println("allowed here");
        System.exit(2);
    }
}
