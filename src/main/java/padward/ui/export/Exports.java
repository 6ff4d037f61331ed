package padward.ui.export;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import javafx.beans.Observable;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.BooleanBinding;
import javafx.scene.image.WritableImage;
import padward.base.Progress;
import padward.base.WholeFile;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.survey.Survey;
import padward.ui.control.Action;
import padward.ui.design.OpenDesign;
import padward.ui.map.MapModel;
import padward.ui.map.MapView;
import padward.ui.map.StripMapView;
import padward.ui.model.WindowModel;
import padward.ui.scene.StripScene;
import padward.ui.work.JobSlot;

/**
 * Saves what the window shows: the map and the strip map as PNG and SVG, the lists as CSV. Files
 * are written whole or not at all, away from the UI thread.
 */
public final class Exports {
    private final WindowModel model;
    private final MapView map;
    private final StripMapView strip;
    private final JobSlot job;
    private SaveDialog dialog;

    /** Saves what these views show to the files that the dialog returns. */
    public Exports(MapModel model, MapView map, StripMapView strip, SaveDialog dialog) {
        this.model = model.explorer();
        this.map = map;
        this.strip = strip;
        this.dialog = dialog;
        this.job = new JobSlot(this.model.jobs(), this);
    }

    /** Uses another dialog. */
    public void setDialog(SaveDialog other) {
        dialog = other;
    }

    private interface Content {
        WholeFile.Body of(Progress progress) throws Exception;
    }

    private void save(String what, String name, Content content) {
        dialog.ask("Save " + what, name).ifPresent(file -> write(what, file, content));
    }

    private void write(String what, Path file, Content content) {
        job.start(
                "Saving " + what,
                progress -> {
                    WholeFile.write(file, content.of(progress));
                    return file;
                },
                saved -> model.notes().done("Saved " + what + " in " + saved + "."));
    }

    private static WholeFile.Body text(String text) {
        return out -> out.write(text.getBytes(StandardCharsets.UTF_8));
    }

    private static WholeFile.Body csv(CsvTable table) {
        return text(table.toCsv());
    }

    private void mapSvg() {
        map.printScene()
                .ifPresent(scene -> save("the map", "map.svg", p -> text(Pictures.mapSvg(scene))));
    }

    private void mapPng() {
        map.printScene()
                .ifPresent(scene -> savePng("the map", "map.png", Pictures.mapImage(scene)));
    }

    private void stripSvg() {
        StripScene scene = strip.printScene();
        double width = strip.visibleWidth();
        save("the strip map", "strip-map.svg", p -> text(Pictures.stripSvg(scene, width)));
    }

    private void stripPng() {
        savePng(
                "the strip map",
                "strip-map.png",
                Pictures.stripImage(strip.printScene(), strip.visibleWidth()));
    }

    private void savePng(String what, String name, WritableImage image) {
        save(what, name, p -> out -> Pictures.writePng(image, out));
    }

    private void routesOut() {
        Optional<Survey> survey = model.shown().surveyProperty().get();
        survey.ifPresent(
                s -> save("the routes out", "routes-out.csv", p -> csv(CsvTables.routesOut(s))));
    }

    private void nets() {
        Optional<OpenDesign> opened = model.openedProperty().get();
        opened.ifPresent(o -> save("the nets", "nets.csv", p -> csv(CsvTables.nets(o, p))));
    }

    private void options() {
        List<WhyBlocked.Option> options = model.shown().options();
        if (model.shown().answerProperty().get().orElse(null) instanceof Answer.Blocked blocked) {
            save(
                    "the options to unblock",
                    "options.csv",
                    p -> csv(CsvTables.options(blocked, options)));
        }
    }

    private void hops() {
        Optional<Route> route = model.shown().route();
        route.ifPresent(w -> save("the route", "route.csv", p -> csv(CsvTables.hops(w))));
    }

    /** The exports; each is enabled while there is something to save. */
    public List<Action> actions() {
        BooleanBinding open =
                whether(() -> model.openedProperty().get().isPresent(), model.openedProperty());
        BooleanBinding route =
                whether(
                        () -> model.shown().route().isPresent(),
                        model.shown().answerProperty(),
                        model.shown().optionProperty(),
                        model.shown().whatIfProperty());
        BooleanBinding surveyed =
                whether(
                        () -> model.shown().surveyProperty().get().isPresent(),
                        model.shown().surveyProperty());
        BooleanBinding options =
                whether(() -> !model.shown().options().isEmpty(), model.shown().answerProperty());
        return List.of(
                export(
                                "map-png",
                                "map as PNG",
                                "The map as it is shown, as a picture for paper, with scale and legend",
                                this::mapPng)
                        .when(open),
                export(
                                "map-svg",
                                "map as SVG",
                                "The map as it is shown, as scalable lines and letters, with scale and legend",
                                this::mapSvg)
                        .when(open),
                export("strip-png", "strip map as PNG", "The route, as a picture", this::stripPng)
                        .when(route),
                export(
                                "strip-svg",
                                "strip map as SVG",
                                "The route, as scalable lines and letters",
                                this::stripSvg)
                        .when(route),
                export(
                                "route-csv",
                                "route as CSV",
                                "The route as a table, one row per hop, delays in ps",
                                this::hops)
                        .when(route),
                export(
                                "routes-out-csv",
                                "routes out as CSV",
                                "All pads for the net as a table, best first, delays in ps",
                                this::routesOut)
                        .when(surveyed),
                export(
                                "options-csv",
                                "options to unblock as CSV",
                                "All options to unblock as a table, one row per obstacle",
                                this::options)
                        .when(options),
                export(
                                "nets-csv",
                                "nets as CSV",
                                "All nets of the design as a table, delays in ps",
                                this::nets)
                        .when(open));
    }

    private static BooleanBinding whether(Callable<Boolean> test, Observable... on) {
        return Bindings.createBooleanBinding(test, on);
    }

    private static Action export(String id, String what, String purpose, Runnable work) {
        return Action.of(
                "save-" + id, Action.Group.EXPORT, "Save the " + what + "…", "", purpose, work);
    }
}
