package org.wearledger;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.conditions.ArchConditions.accessTargetWhere;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.GeneralCodingRules.THROW_GENERIC_EXCEPTIONS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.AccessTarget;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.Architectures.LayeredArchitecture;
import java.io.Serializable;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiPredicate;

/** The rules by name, over the packages under a root, so that they run over the product and over planted faults. */
final class ArchitectureRules {
    private ArchitectureRules() {
    }

    static Map<String, ArchRule> rules(String root) {
        Map<String, ArchRule> rules = new LinkedHashMap<>();
        rules.put("layers", layers(root));
        rules.put("cycles", slices().matching(root + ".(*)..").should().beFreeOfCycles()
            .because("packages that need each other cannot be read or tested alone"));

        rules.put("spark", only(root, List.of("org.apache.spark..", "scala.."), "job")
            .because("the engine is one stage's choice; everything else stays testable without it"));
        rules.put("jackson", only(root, List.of("com.fasterxml.jackson.."), "intake", "report", "simulate", "job")
            .because("JSON is a matter of the files read and written, and of what travels between Spark's tasks"));
        rules.put("commons-csv", only(root, List.of("org.apache.commons.csv.."), "intake", "report", "simulate")
            .because("CSV is a matter of the files read and written"));
        rules.put("poi", only(root, List.of("org.apache.poi.."), "report")
            .because("workbooks are one form of report"));
        rules.put("picocli", only(root, List.of("picocli.."), "cli")
            .because("the command line is one way in"));
        rules.put("statistics", only(root,
            List.of("org.apache.commons.math3..", "org.apache.commons.statistics.."), "stats", "simulate")
            .because("every statistic is named, documented and checked in one place"));

        rules.put("spark-beans", noClasses().should(reach("bean encoders or data frames of a class", (access, target) ->
                access.startsWith("org.apache.spark.sql.") && (access.endsWith(".Encoders.bean") || target.getName()
                    .equals("createDataFrame") && lastParameterIsClass(target))))
            .because("bean encoders pass over records without a word and lose their components"));
        rules.put("console", noClasses().that().resideOutsideOfPackage(root + ".cli..").should(ACCESS_STANDARD_STREAMS)
            .because("only the command line speaks to the user"));
        rules.put("exit", noClasses().that().resideOutsideOfPackage(root + ".cli..")
            .should(reach("System.exit or Runtime.halt", (access, target) -> Set.of("java.lang.System.exit",
                "java.lang.Runtime.exit", "java.lang.Runtime.halt").contains(access)))
            .because("a stage that ends the process takes its caller's clean-up with it"));
        rules.put("wall-clock", noClasses().that().resideOutsideOfPackage(root + ".cli..")
            .should(reach("the wall clock", (access, target) -> readsWallClock(access, target)))
            .because("the same files must give the same results on any day; the date is an argument"));
        rules.put("random", noClasses().should(reach("unseeded random numbers", (access, target) -> unseeded(access, target)))
            .because("a run must be repeatable from its seed"));

        String model = root + ".model..";
        rules.put("model-kinds", classes().that().resideInAPackage(model).and().areNotAnonymousClasses()
            .and().haveNameNotMatching(".*\\.model\\.Health(\\$Builder)?")
            .should().beRecords().orShould().beEnums().orShould().beInterfaces()
            .because("the facts handed between stages are plain values; the one held by the million keeps its own in arrays"));
        rules.put("model-serializable", classes().that().resideInAPackage(model).and().areRecords()
            .should().beAssignableTo(Serializable.class).because("the facts travel between Spark's workers"));
        rules.put("model-optional", fields().that().areDeclaredInClassesThat().resideInAPackage(model)
            .should().notHaveRawType(describe("an Optional", (JavaClass type) -> type.getName().startsWith("java.util.Optional")))
            .because("Optional is not Serializable; null stands for \"not reported\""));
        rules.put("model-final", fields().that().areDeclaredInClassesThat().resideInAPackage(model)
            .and().areDeclaredInClassesThat().haveNameNotMatching(".*\\$Builder").should().beFinal().because("facts do not change once read"));

        rules.put("bare-exceptions", noClasses().should(THROW_GENERIC_EXCEPTIONS)
            .because("a caller can only answer to a failure that has a name"));
        rules.put("names", noClasses().should().haveNameMatching(".*(Utils?|Helper|Manager|Impl)(\\$.*)?")
            .because("such a name does not say what the class is for"));
        return rules;
    }

    private static ArchRule layers(String root) {
        LayeredArchitecture layers = layeredArchitecture().consideringOnlyDependenciesInLayers().withOptionalLayers(true);
        for (String name : List.of("model", "stats", "intake", "history", "assess", "budget", "report", "simulate", "job",
            "cli")) {
            layers = layers.layer(name).definedBy(root + "." + name + "..");
        }
        return layers
            .whereLayer("model").mayNotAccessAnyLayer()
            .whereLayer("stats").mayNotAccessAnyLayer()
            .whereLayer("intake").mayOnlyAccessLayers("model")
            .whereLayer("history").mayOnlyAccessLayers("model")
            .whereLayer("report").mayOnlyAccessLayers("model")
            .whereLayer("simulate").mayOnlyAccessLayers("model")
            .whereLayer("assess").mayOnlyAccessLayers("model", "stats")
            .whereLayer("budget").mayOnlyAccessLayers("model", "stats")
            .whereLayer("cli").mayOnlyAccessLayers("job", "model", "report", "simulate")
            .whereLayer("cli").mayNotBeAccessedByAnyLayer()
            .ensureAllClassesAreContainedInArchitecture()
            .because("each stage can be read, tested and replaced knowing only the facts it is handed");
    }

    /** Only the named packages may depend on the libraries. */
    private static ArchRule only(String root, List<String> libraries, String... users) {
        String[] allowed = Arrays.stream(users).map(user -> root + "." + user + "..").toArray(String[]::new);
        return noClasses().that().resideOutsideOfPackages(allowed).should().dependOnClassesThat()
            .resideInAnyPackage(libraries.toArray(String[]::new));
    }

    /** A call, construction, method reference or field access whose target, as {@code owner.name}, meets the test. */
    private static ArchCondition<JavaClass> reach(String what,
                                                                          BiPredicate<String, AccessTarget> test) {
        return accessTargetWhere(describe("target is " + what, (JavaAccess<?> access) -> test.test(
            access.getTargetOwner().getName() + "." + access.getTarget().getName(), access.getTarget())));
    }

    private static boolean readsWallClock(String access, AccessTarget target) {
        return access.startsWith("java.time.") && access.endsWith(".now") && !takes(target, "java.time.Clock")
            || access.startsWith("java.time.Clock.system")
            || access.startsWith("java.time.Clock.tick") && !takes(target, "java.time.Clock")
            || access.equals("java.lang.System.currentTimeMillis")
            || access.equals("java.util.Date.<init>") && parameters(target).isEmpty();
    }

    private static boolean unseeded(String access, AccessTarget target) {
        return Set.of("java.lang.Math.random", "java.lang.StrictMath.random", "java.util.UUID.randomUUID",
                "java.util.concurrent.ThreadLocalRandom.current").contains(access)
            || access.startsWith("java.security.SecureRandom.")
            || Set.of("java.util.Random.<init>", "java.util.SplittableRandom.<init>").contains(access)
                && parameters(target).isEmpty();
    }

    private static boolean takes(AccessTarget target, String type) {
        return parameters(target).stream().anyMatch(parameter -> parameter.getName().equals(type));
    }

    private static boolean lastParameterIsClass(AccessTarget target) {
        List<JavaClass> parameters = parameters(target);
        return parameters.get(parameters.size() - 1).getName().equals("java.lang.Class");
    }

    private static List<JavaClass> parameters(AccessTarget target) {
        return target instanceof AccessTarget.CodeUnitAccessTarget codeUnit ? codeUnit.getRawParameterTypes() : List.of();
    }
}
