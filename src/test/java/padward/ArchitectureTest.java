package padward;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.Architectures;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** The layers and their arrows, as DEVELOPERS.md draws them. */
@AnalyzeClasses(packages = "padward", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {
    @ArchTest
    static final ArchRule layersUseOnlyThoseBelow =
            layeredArchitecture()
                    .consideringOnlyDependenciesInLayers()
                    .withOptionalLayers(true)
                    .layer("base")
                    .definedBy("padward.base..")
                    .layer("fabric")
                    .definedBy("padward.fabric..")
                    .layer("design")
                    .definedBy("padward.design..")
                    .layer("timing")
                    .definedBy("padward.timing..")
                    .layer("route")
                    .definedBy("padward.route..")
                    .layer("clearance")
                    .definedBy("padward.clearance..")
                    .layer("breakout")
                    .definedBy("padward.breakout..")
                    .layer("lesson")
                    .definedBy("padward.lesson..")
                    .layer("handover")
                    .definedBy("padward.handover..")
                    .layer("format")
                    .definedBy("padward.format..")
                    .layer("capture")
                    .definedBy("padward.capture..")
                    .layer("synth")
                    .definedBy("padward.synth..")
                    .layer("place")
                    .definedBy("padward.place..")
                    .layer("cli")
                    .definedBy("padward.cli..")
                    .layer("ui")
                    .definedBy("padward.ui..")
                    .whereLayer("fabric")
                    .mayOnlyAccessLayers("base")
                    .whereLayer("design")
                    .mayOnlyAccessLayers("fabric", "base")
                    .whereLayer("timing")
                    .mayOnlyAccessLayers("design", "fabric", "base")
                    .whereLayer("route")
                    .mayOnlyAccessLayers("timing", "design", "fabric", "base")
                    .whereLayer("clearance")
                    .mayOnlyAccessLayers("route", "timing", "design", "fabric", "base")
                    .whereLayer("breakout")
                    .mayOnlyAccessLayers("clearance", "route", "timing", "design", "fabric", "base")
                    .whereLayer("lesson")
                    .mayOnlyAccessLayers(
                            "breakout", "clearance", "route", "timing", "design", "fabric", "base")
                    .whereLayer("handover")
                    .mayOnlyAccessLayers("breakout", "timing", "design", "fabric", "base")
                    .whereLayer("format")
                    .mayOnlyAccessLayers("lesson", "design", "fabric", "base")
                    .whereLayer("capture")
                    .mayOnlyAccessLayers("fabric", "base")
                    .whereLayer("synth")
                    .mayOnlyAccessLayers("route", "timing", "design", "fabric", "base")
                    .whereLayer("place")
                    .mayOnlyAccessLayers("route", "timing", "design", "fabric", "base")
                    .whereLayer("cli")
                    .mayNotBeAccessedByAnyLayer()
                    .whereLayer("ui")
                    .mayNotBeAccessedByAnyLayer();

    @ArchTest
    static final ArchRule packagesHaveNoCycles =
            slices().matching("padward.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule partsOfTheWindowHaveNoCycles =
            slices().matching("padward.ui.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule partsOfTheWindowDoNotUseItsFrame =
            noClasses()
                    .that()
                    .resideInAPackage("padward.ui.*..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("padward.ui");

    @ArchTest static final ArchRule partsOfTheWindowUseOnlyThoseBelow = partsOfTheWindow();

    private static ArchRule partsOfTheWindow() {
        Map<String, List<String>> mayUse = new LinkedHashMap<>();
        mayUse.put("draw", List.of());
        mayUse.put("scene", List.of("draw"));
        mayUse.put("paint", List.of("scene", "draw"));
        mayUse.put("model", List.of("scene", "draw"));
        mayUse.put("control", List.of("model", "scene", "draw"));
        mayUse.put("map", List.of("control", "model", "paint", "scene", "draw"));
        List<String> all = List.of("map", "control", "model", "paint", "scene", "draw");
        List<String> panels = List.of("play", "question", "lesson", "group", "nets", "ledger");
        panels.forEach(panel -> mayUse.put(panel, all));
        mayUse.put("export", Stream.concat(panels.stream(), all.stream()).toList());
        Architectures.LayeredArchitecture rule =
                layeredArchitecture().consideringOnlyDependenciesInLayers();
        for (String part : mayUse.keySet()) {
            rule = rule.layer(part).definedBy("padward.ui." + part + "..");
        }
        for (Map.Entry<String, List<String>> part : mayUse.entrySet()) {
            Architectures.LayeredArchitecture.LayerDependencySpecification where =
                    rule.whereLayer(part.getKey());
            rule =
                    part.getValue().isEmpty()
                            ? where.mayNotAccessAnyLayer()
                            : where.mayOnlyAccessLayers(part.getValue().toArray(new String[0]));
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
}
