package org.wearledger.assess;

import java.util.List;

/** The fleets that forecasts are tried on. */
final class Scenarios {
    static final List<Scenario> ALL = List.of(
        Scenario.of("the model's own rules, 8 readings", s -> s.gammaProcess = true),
        Scenario.of("lognormal rates, sd 1", s -> s.logSd = 1),
        Scenario.of("changes of user, 8 readings", s -> s.switches = .05),
        Scenario.of("changes of user, 17 readings", s -> {
            s.switches = .05;
            s.readings = 17;
        }),
        Scenario.of("season of 40 %", s -> s.season = .4),
        Scenario.of("shared shock .15 a quarter", s -> s.shock = .15),
        Scenario.of("season, shock and changes of user", s -> {
            s.season = .4;
            s.shock = .15;
            s.switches = .05;
        }),
        Scenario.of("75 drive models of 4 drives", s -> {
            s.drives = 300;
            s.models = 75;
            s.modelSd = .5;
        }),
        Scenario.of("1 reading and in-service date", s -> s.readings = 1),
        Scenario.of("1 reading and in-service date, drift .2 a quarter", s -> {
            s.readings = 1;
            s.drift = .2;
        }),
        Scenario.of("2 readings, steady", s -> s.readings = 2),
        Scenario.of("2 readings, changes of user", s -> {
            s.readings = 2;
            s.switches = .05;
        }),
        Scenario.of("2 readings, drift .2 a quarter", s -> {
            s.readings = 2;
            s.drift = .2;
        }),
        Scenario.of("3 readings, steady", s -> s.readings = 3),
        Scenario.of("3 readings, drift .2 a quarter", s -> {
            s.readings = 3;
            s.drift = .2;
        }),
        Scenario.of("4 readings, steady", s -> s.readings = 4),
        Scenario.of("4 readings, drift .2 a quarter", s -> {
            s.readings = 4;
            s.drift = .2;
        }),
        Scenario.of("1 reading, hours only (5.5 a day)", s -> {
            s.readings = 1;
            s.dated = false;
            s.hoursADay = 5.5;
        }),
        Scenario.of("1 reading, hours only, drift .2 a quarter", s -> {
            s.readings = 1;
            s.dated = false;
            s.hoursADay = 5.5;
            s.drift = .2;
        }),
        Scenario.of("1 reading, hours only, light use", s -> {
            s.readings = 1;
            s.dated = false;
            s.hoursADay = 5.5;
            s.typical = .012;
        }),
        Scenario.of("1 reading, hours (2 a day), a date for one in five", s -> {
            s.readings = 1;
            s.dateKnown = .2;
            s.hoursADay = 2;
        }),
        Scenario.of("irregular dates, gaps, up to 6 months old", s -> {
            s.gaps = .25;
            s.stale = 6;
        }),
        Scenario.of("season, shock, changes of user, idle months, gaps", s -> {
            s.season = .4;
            s.shock = .15;
            s.switches = .05;
            s.idle = .05;
            s.gaps = .25;
        }),
        Scenario.of("drift .2 a quarter, 12 readings", s -> {
            s.drift = .2;
            s.readings = 12;
        }),
        Scenario.of("no bytes, the controller's percentage alone", s -> {
            s.bytes = false;
            s.controller = 1;
        }),
        Scenario.of("controller twice as fast, steady", s -> s.controller = 2),
        Scenario.of("write amplification wanders .15 a quarter", s -> {
            s.controller = 1.5;
            s.wander = .15;
        }),
        Scenario.of("write amplification rises 5 % a quarter", s -> {
            s.controller = 1.5;
            s.trend = Math.log(1.05);
        }),
        Scenario.of("24 offices of 8 drives", s -> {
            s.drives = 8;
            s.fleets = 24;
        }));

    private Scenarios() {
    }
}
