package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.binding.BooleanExpression;
import padward.ui.control.Action;
import padward.ui.scene.MapLayer;

/** The actions of the map, each with its keys. */
public final class MapActions {
    private MapActions() {}

    /** The actions of one map. */
    public static List<Action> of(MapView map, MapModel model) {
        List<Action> result = new ArrayList<>(places(map.navigation()));
        for (MapLayer layer : MapLayer.values()) {
            result.add(
                    onMap(
                                    layer == MapLayer.QUESTIONS
                                            ? Action.Group.VIEW
                                            : Action.Group.LAYER,
                                    "layer-" + layer.name().toLowerCase(Locale.ROOT),
                                    layer == MapLayer.QUESTIONS
                                            ? layer.label()
                                            : "Show or hide: " + layer.label(),
                                    layer.key(),
                                    layer.what(),
                                    () -> model.options().toggle(layer))
                            .marking(
                                    BooleanExpression.booleanExpression(
                                            model.options().shown(layer))));
        }
        result.add(
                onMap(
                        Action.Group.MAP,
                        "pin",
                        "Pin the thing in the middle",
                        "Enter",
                        "Shows a card for the thing at the cross in the middle of the map: its name,"
                                + " what uses it, what it can drive",
                        map.pointer()::pickMiddle));
        result.add(
                onMap(
                                Action.Group.MAP,
                                "measure",
                                "Measure",
                                "M",
                                "Measures from the middle of the map: drag, or move with the arrow"
                                        + " keys; Escape ends it. Ctrl and drag measures at once",
                                map::toggleMeasure)
                        .marking(model.measure().onProperty()));
        result.add(
                onMap(
                        Action.Group.MAP,
                        "unpin",
                        "Unpin",
                        "U",
                        "Closes the card of the pinned thing",
                        () -> model.pinnedProperty().set(Optional.empty())));
        return result;
    }

    private static List<Action> places(MapNavigation navigation) {
        return List.of(
                onMap(
                        Action.Group.MAP,
                        "whole-fabric",
                        "Whole fabric",
                        "Digit0 Numpad0 Home",
                        "Zooms to show the whole fabric",
                        navigation::fitAll),
                onMap(
                        Action.Group.MAP,
                        "whole-route",
                        "Whole route",
                        "W",
                        "Zooms to show the whole route",
                        navigation::fitRoute),
                onMap(
                        Action.Group.MAP,
                        "whole-net",
                        "Whole net",
                        "N",
                        "Zooms to show all wires of a net: of the pinned thing, or else of the"
                                + " question",
                        navigation::fitNet),
                onMap(
                        Action.Group.MAP,
                        "whole-tile",
                        "Whole tile",
                        "T",
                        "Zooms to the tile of the pinned thing, or else to the one in the middle",
                        navigation::fitTile),
                onMap(
                        Action.Group.MAP,
                        "switch-box",
                        "Switch box",
                        "B",
                        "Zooms to the inside of a switch box: of the pinned thing's tile, or else of"
                                + " the one in the middle",
                        navigation::fitBox),
                onMap(
                        Action.Group.MOVE,
                        "zoom-in",
                        "Zoom in",
                        "Plus Equals Add Shift+Equals Shift+Plus",
                        "Zooms in on the middle of the map",
                        () -> navigation.zoom(1)),
                onMap(
                        Action.Group.MOVE,
                        "zoom-out",
                        "Zoom out",
                        "Minus Subtract",
                        "Zooms out from the middle of the map",
                        () -> navigation.zoom(-1)),
                onMap(
                        Action.Group.MAP,
                        "back",
                        "Back",
                        "Back_Space Alt+Left",
                        "Goes back to the place on the map before the last jump",
                        navigation::back),
                onMap(
                        Action.Group.MAP,
                        "forward",
                        "Forward",
                        "Shift+Back_Space Alt+Right",
                        "Goes forward to the place that you came back from",
                        navigation::forward),
                onMap(
                        Action.Group.MOVE,
                        "west",
                        "Move left",
                        "Left",
                        "Shows what is to the left",
                        () -> navigation.step(-1, 0)),
                onMap(
                        Action.Group.MOVE,
                        "east",
                        "Move right",
                        "Right",
                        "Shows what is to the right",
                        () -> navigation.step(1, 0)),
                onMap(
                        Action.Group.MOVE,
                        "north",
                        "Move up",
                        "Up",
                        "Shows what is above",
                        () -> navigation.step(0, -1)),
                onMap(
                        Action.Group.MOVE,
                        "south",
                        "Move down",
                        "Down",
                        "Shows what is below",
                        () -> navigation.step(0, 1)));
    }

    private static Action onMap(
            Action.Group group,
            String id,
            String text,
            String keys,
            String purpose,
            Runnable work) {
        return Action.of(id, group, text, keys, purpose, work).onMap();
    }
}
