package org.wearledger.planted.history;

final class Talks {
    void out() {
        System.out.println("out");
    }

    void err() {
        System.err.println("err");
    }

    void exit() {
        System.exit(1);
    }
}
