package padward;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.Architectures;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** The layers and their arrows, as DEVELOPERS.md draws them. */
@AnalyzeClasses(packages = "padward", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {
    /** Each layer with those below it that it may use; a layer that holds no class is a fault. */
    @ArchTest static final ArchRule layersUseOnlyThoseBelow = layers();

    private static ArchRule layers() {
        List<String> model = List.of("design", "fabric", "base");
        List<String> changed = with(model, "change");
        List<String> routed = with(changed, "route", "timing");
        List<String> answered = with(routed, "breakout", "unblock");
        Map<String, List<String>> mayUse = new LinkedHashMap<>();
        mayUse.put("base", List.of());
        mayUse.put("fabric", List.of("base"));
        mayUse.put("design", List.of("fabric", "base"));
        mayUse.put("change", model);
        mayUse.put("timing", model);
        mayUse.put("route", with(model, "timing"));
        mayUse.put("unblock", routed);
        mayUse.put("breakout", with(routed, "unblock"));
        mayUse.put("watch", with(answered, "place"));
        mayUse.put("handover", with(answered, "watch", "place", "capture", "format"));
        mayUse.put("capture", List.of("fabric", "base"));
        mayUse.put("synth", with(model, "route", "timing"));
        mayUse.put("place", with(model, "route", "timing"));
        mayUse.put("format", changed);
        mayUse.put("lesson", with(answered, "watch", "place", "format"));
        mayUse.put("api", with(answered, "format"));
        mayUse.put("filework", with(answered, "handover", "place", "capture", "format"));
        ArchRule layers = layered("padward.", mayUse, List.of("cli", "ui"));
        return layers.because("what stands below must be understood, tested and used without it");
    }

    private static List<String> with(List<String> some, String... others) {
        return Stream.concat(some.stream(), Stream.of(others)).toList();
    }

    @ArchTest
    static final ArchRule packagesHaveNoCycles =
            slices().matching("padward.(*)..")
                    .should()
                    .beFreeOfCycles()
                    .because("two rooms that need each other are one");

    @ArchTest
    static final ArchRule subPackagesHaveNoCycles =
            slices().matching("padward.(**)")
                    .should()
                    .beFreeOfCycles()
                    .because("a matter that needs another one back is not a matter of its own");

    @ArchTest
    static final ArchRule partsOfTheWindowHaveNoCycles =
            slices().matching("padward.ui.(*)..")
                    .should()
                    .beFreeOfCycles()
                    .because("a panel can be changed or left out alone");

    @ArchTest
    static final ArchRule partsOfTheWindowDoNotUseItsFrame =
            noClasses()
                    .that()
                    .resideInAPackage("padward.ui.*..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("padward.ui")
                    .because("the frame puts the parts together; none of them needs it");

    @ArchTest static final ArchRule partsOfTheWindowUseOnlyThoseBelow = partsOfTheWindow();

    private static ArchRule partsOfTheWindow() {
        Map<String, List<String>> mayUse = new LinkedHashMap<>();
        mayUse.put("design", List.of());
        mayUse.put("work", List.of());
        mayUse.put("model", List.of("work", "design"));
        mayUse.put("control", List.of("model", "work", "design"));
        mayUse.put("draw", List.of());
        mayUse.put("scene", List.of("draw", "design"));
        mayUse.put("paint", List.of("scene", "draw", "design"));
        List<String> shared =
                List.of("control", "model", "work", "paint", "scene", "draw", "design");
        mayUse.put("map", shared);
        List<String> all = with(shared, "map");
        List<String> panels =
                List.of(
                        "play",
                        "question",
                        "lesson",
                        "group",
                        "nets",
                        "ledger",
                        "watch",
                        "filework");
        panels.forEach(panel -> mayUse.put(panel, all));
        mayUse.put("export", Stream.concat(panels.stream(), all.stream()).toList());
        return layered("padward.ui.", mayUse, List.of())
                .because("panels do not know each other, and nothing below knows a panel");
    }

    /**
     * The packages of one level in layers.
     *
     * @param mayUse each with those that it may use
     * @param tops packages that nobody may use
     */
    private static Architectures.LayeredArchitecture layered(
            String parent, Map<String, List<String>> mayUse, List<String> tops) {
        Architectures.LayeredArchitecture rule =
                layeredArchitecture().consideringOnlyDependenciesInLayers();
        for (String part : mayUse.keySet()) {
            rule = rule.layer(part).definedBy(parent + part + "..");
        }
        for (String top : tops) {
            rule = rule.layer(top).definedBy(parent + top + "..");
        }
        for (Map.Entry<String, List<String>> part : mayUse.entrySet()) {
            Architectures.LayeredArchitecture.LayerDependencySpecification where =
                    rule.whereLayer(part.getKey());
            rule =
                    part.getValue().isEmpty()
                            ? where.mayNotAccessAnyLayer()
                            : where.mayOnlyAccessLayers(part.getValue().toArray(new String[0]));
        }
        for (String top : tops) {
            rule = rule.whereLayer(top).mayNotBeAccessedByAnyLayer();
        }
        return rule;
    }

    @ArchTest
    static final ArchRule onlyTheWindowKnowsTheToolkit =
            noClasses()
                    .that()
                    .resideOutsideOfPackage("padward.ui..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("javafx..")
                    .because("everything below the window must run where no display is");

    @ArchTest
    static final ArchRule onlyTheCommandLinePrints =
            noClasses()
                    .that()
                    .resideOutsideOfPackages("padward.cli..", "padward")
                    .should()
                    .accessField(System.class, "out")
                    .orShould()
                    .accessField(System.class, "err")
                    .because("results are values; who shows them is decided above");

    @ArchTest
    static final ArchRule numbersAreWrittenWithTheSameDigitsEverywhere =
            noClasses()
                    .should()
                    .callMethod(String.class, "formatted", Object[].class)
                    .orShould()
                    .callMethod(String.class, "format", String.class, Object[].class)
                    .orShould()
                    .callMethod(PrintWriter.class, "printf", String.class, Object[].class)
                    .orShould()
                    .callMethod(PrintStream.class, "printf", String.class, Object[].class)
                    .orShould()
                    .callMethod(String.class, "toLowerCase")
                    .orShould()
                    .callMethod(String.class, "toUpperCase")
                    .because("without a stated locale they depend on that of the user");
}
