//! The fields of a flat JSON object: writing them in one order, reading each once and as what it should be.
//!
//! Knows no entry: which fields a fact has is [`super::wire`]'s to say.

use std::borrow::Cow;
use std::fmt;

use serde::de::{self, Deserialize, Deserializer, Error as _, MapAccess, Visitor};
use serde_json::Value;

use super::wire::{CHORE_MINUTES_MAX, ID_BYTES_MAX, NOTE_CHARS_MAX, WireFault};
use crate::card::Role;
use crate::entry::{Condition, Place, Point};
use crate::ids::{DeviceId, MachineId, RoomId, StatementId, StopId};
use crate::time::Instant;

/// A JSON object that is being written, keys in the order they are given.
pub(super) struct Line(String);

impl Line {
    pub(super) fn open() -> Self {
        Self("{".to_owned())
    }

    /// Takes up an object that was closed, to add to it.
    pub(super) fn reopen(mut closed: String) -> Self {
        closed.pop();
        Self(closed)
    }

    pub(super) fn close(mut self) -> String {
        self.0.push('}');
        self.0
    }

    /// A field whose value is JSON already.
    pub(super) fn raw(&mut self, key: &str, json: &str) {
        if self.0.len() > 1 {
            self.0.push(',');
        }
        self.0.push('"');
        self.0.push_str(key);
        self.0.push_str("\":");
        self.0.push_str(json);
    }

    pub(super) fn text(&mut self, key: &str, text: &str) {
        let json = serde_json::to_string(text).expect("a string is always JSON");
        self.raw(key, &json);
    }

    pub(super) fn until(&mut self, until: Option<Instant>) {
        if let Some(until) = until {
            self.text("until", &until.to_string());
        }
    }

    pub(super) fn maybe(&mut self, key: &str, text: Option<&str>) {
        if let Some(text) = text {
            self.text(key, text);
        }
    }
}

/// A flat JSON object, each key once; what it holds is read where it stands.
pub(super) struct Fields<'a>(Vec<(Cow<'a, str>, Field<'a>)>);

/// What stands in a field.
enum Field<'a> {
    Nothing,
    Yes(bool),
    /// A whole number from 0.
    Whole(u64),
    /// A whole number below that.
    Below(i64),
    Broken(f64),
    Text(Cow<'a, str>),
    /// A list or an object, which no entry of this release has.
    Other,
}

impl<'a> Fields<'a> {
    pub(super) fn read(json: &'a str, max: usize) -> Result<Self, WireFault> {
        if json.len() > max {
            return Err(WireFault::TooLong { bytes: json.len(), max });
        }
        serde_json::from_str(json).map_err(|fault| WireFault::NotAnObject { why: fault.to_string() })
    }

    fn get(&self, field: &'static str) -> Result<&Field<'a>, WireFault> {
        match self.0.iter().find(|(key, _)| key == field) {
            None | Some((_, Field::Nothing)) => Err(WireFault::Missing { field }),
            Some((_, value)) => Ok(value),
        }
    }

    fn text(&self, field: &'static str, wanted: &'static str) -> Result<&str, WireFault> {
        match self.get(field)? {
            Field::Text(text) => Ok(text),
            _ => Err(WireFault::Wrong { field, wanted }),
        }
    }

    /// A field that may be left out, or be null.
    pub(super) fn optional<'f, T>(
        &'f self,
        field: &'static str,
        read: fn(&'f Self, &'static str) -> Result<T, WireFault>,
    ) -> Result<Option<T>, WireFault> {
        match read(self, field) {
            Err(WireFault::Missing { .. }) => Ok(None),
            read => read.map(Some),
        }
    }

    /// Text within [`ID_BYTES_MAX`]; it may be empty where the caller knows a meaning for that.
    pub(super) fn short(&self, field: &'static str) -> Result<&str, WireFault> {
        let wanted = "text of at most 256 bytes";
        let text = self.text(field, wanted)?;
        if text.len() > ID_BYTES_MAX { Err(WireFault::Wrong { field, wanted }) } else { Ok(text) }
    }

    pub(super) fn id(&self, field: &'static str) -> Result<&str, WireFault> {
        match self.short(field)? {
            "" => Err(WireFault::Wrong { field, wanted: "text that is not empty" }),
            text => Ok(text),
        }
    }

    pub(super) fn yes(&self, field: &'static str) -> Result<bool, WireFault> {
        match self.get(field)? {
            Field::Yes(yes) => Ok(*yes),
            _ => Err(WireFault::Wrong { field, wanted: "true or false" }),
        }
    }

    pub(super) fn note(&self, field: &'static str) -> Result<&str, WireFault> {
        let wanted = "text of at most 2,000 characters";
        let text = self.text(field, wanted)?;
        if text.chars().count() > NOTE_CHARS_MAX { Err(WireFault::Wrong { field, wanted }) } else { Ok(text) }
    }

    pub(super) fn machine(&self, field: &'static str) -> Result<MachineId, WireFault> {
        self.id(field).map(MachineId::new)
    }

    pub(super) fn room(&self, field: &'static str) -> Result<RoomId, WireFault> {
        self.id(field).map(RoomId::new)
    }

    pub(super) fn device(&self, field: &'static str) -> Result<DeviceId, WireFault> {
        self.id(field).map(DeviceId::new)
    }

    pub(super) fn instant(&self, field: &'static str) -> Result<Instant, WireFault> {
        let text = self.id(field)?;
        Instant::parse(text).ok_or(WireFault::Wrong { field, wanted: "an RFC 3339 date and time" })
    }

    /// A whole number from 1.
    pub(super) fn count(&self, field: &'static str) -> Result<u64, WireFault> {
        match self.get(field)? {
            Field::Whole(count) if *count > 0 => Ok(*count),
            _ => Err(WireFault::Wrong { field, wanted: "a whole number from 1" }),
        }
    }

    pub(super) fn crew(&self, field: &'static str) -> Result<u32, WireFault> {
        let wanted = "a whole number of people, from 1";
        u32::try_from(self.count(field)?).map_err(|_| WireFault::Wrong { field, wanted })
    }

    pub(super) fn number(&self, field: &'static str) -> Result<u32, WireFault> {
        let wanted = "a whole number, from 1";
        u32::try_from(self.count(field)?).map_err(|_| WireFault::Wrong { field, wanted })
    }

    pub(super) fn seconds(&self, field: &'static str) -> Result<i64, WireFault> {
        let seconds = match *self.get(field)? {
            Field::Whole(seconds) => i64::try_from(seconds).ok(),
            Field::Below(seconds) => Some(seconds),
            _ => None,
        };
        seconds.ok_or(WireFault::Wrong { field, wanted: "a whole number of seconds" })
    }

    pub(super) fn minutes(&self, field: &'static str) -> Result<f64, WireFault> {
        let minutes = match *self.get(field)? {
            // No day has so many that a float could not hold them.
            Field::Whole(minutes) => u32::try_from(minutes).ok().map(f64::from),
            Field::Broken(minutes) => Some(minutes),
            _ => None,
        };
        let within = minutes.filter(|minutes| (0.0..=CHORE_MINUTES_MAX).contains(minutes));
        within.ok_or(WireFault::Wrong { field, wanted: "minutes, from 0 to a day's" })
    }

    pub(super) fn condition(&self, field: &'static str) -> Result<Condition, WireFault> {
        match self.id(field)? {
            "clean" => Ok(Condition::Clean),
            "mess" => Ok(Condition::Mess),
            _ => Err(WireFault::Wrong { field, wanted: "`clean` or `mess`" }),
        }
    }

    pub(super) fn role(&self, field: &'static str) -> Result<Role, WireFault> {
        let wanted = "`member`, `signer` or `steward`";
        Role::named(self.id(field)?).ok_or(WireFault::Wrong { field, wanted })
    }

    pub(super) fn point(&self) -> Result<Point, WireFault> {
        let stop = self.optional("stop", Self::id)?;
        match (stop, self.optional("statement", Self::id)?) {
            (Some(stop), None) => Ok(Point::Stop(StopId::new(stop))),
            (None, Some(statement)) => Ok(Point::Statement(StatementId::new(statement))),
            (None, None) => Err(WireFault::Missing { field: "stop or statement" }),
            (Some(_), Some(_)) => Err(WireFault::Wrong { field: "stop or statement", wanted: "one of the two" }),
        }
    }

    pub(super) fn place(&self) -> Result<Place, WireFault> {
        self.maybe_place()?.ok_or(WireFault::Missing { field: "machine or room" })
    }

    pub(super) fn maybe_place(&self) -> Result<Option<Place>, WireFault> {
        let machine = self.optional("machine", Self::machine)?;
        match (machine, self.optional("room", Self::room)?) {
            (Some(machine), None) => Ok(Some(Place::Machine(machine))),
            (None, Some(room)) => Ok(Some(Place::Room(room))),
            (None, None) => Ok(None),
            (Some(_), Some(_)) => Err(WireFault::Wrong { field: "machine or room", wanted: "one of the two" }),
        }
    }
}

impl<'de> Deserialize<'de> for Fields<'de> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(EachKeyOnce)
    }
}

/// Two readers of one object could otherwise believe two different values of a repeated key.
struct EachKeyOnce;

impl<'de> Visitor<'de> for EachKeyOnce {
    type Value = Fields<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object")
    }

    // What is no object is said so by each of these, without serde's own words for what stands there: they bring the
    // writer of floats and its tables along.
    fn visit_unit<E: de::Error>(self) -> Result<Fields<'de>, E> {
        Err(not_an_object())
    }

    fn visit_bool<E: de::Error>(self, _: bool) -> Result<Fields<'de>, E> {
        Err(not_an_object())
    }

    fn visit_i64<E: de::Error>(self, _: i64) -> Result<Fields<'de>, E> {
        Err(not_an_object())
    }

    fn visit_u64<E: de::Error>(self, _: u64) -> Result<Fields<'de>, E> {
        Err(not_an_object())
    }

    fn visit_f64<E: de::Error>(self, _: f64) -> Result<Fields<'de>, E> {
        Err(not_an_object())
    }

    fn visit_str<E: de::Error>(self, _: &str) -> Result<Fields<'de>, E> {
        Err(not_an_object())
    }

    fn visit_seq<A: de::SeqAccess<'de>>(self, _: A) -> Result<Fields<'de>, A::Error> {
        Err(not_an_object())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Fields<'de>, A::Error> {
        let mut fields: Vec<(Cow<'de, str>, Field<'de>)> = Vec::with_capacity(16);
        while let Some(key) = map.next_key::<Field<'de>>()? {
            let Field::Text(key) = key else { return Err(not_an_object()) };
            if fields.iter().any(|(other, _)| *other == key) {
                return Err(A::Error::custom("a key stands in it twice"));
            }
            fields.push((key, map.next_value::<Field<'de>>()?));
        }
        Ok(Fields(fields))
    }
}

impl<'de> Deserialize<'de> for Field<'de> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(AnyField)
    }
}

struct AnyField;

impl<'de> Visitor<'de> for AnyField {
    type Value = Field<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_unit<E: de::Error>(self) -> Result<Field<'de>, E> {
        Ok(Field::Nothing)
    }

    fn visit_bool<E: de::Error>(self, yes: bool) -> Result<Field<'de>, E> {
        Ok(Field::Yes(yes))
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<Field<'de>, E> {
        Ok(Field::Below(number))
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<Field<'de>, E> {
        Ok(Field::Whole(number))
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<Field<'de>, E> {
        Ok(Field::Broken(number))
    }

    fn visit_borrowed_str<E: de::Error>(self, text: &'de str) -> Result<Field<'de>, E> {
        Ok(Field::Text(Cow::Borrowed(text)))
    }

    // One with an escape in it stands nowhere as it reads.
    fn visit_str<E: de::Error>(self, text: &str) -> Result<Field<'de>, E> {
        Ok(Field::Text(Cow::Owned(text.to_owned())))
    }

    fn visit_seq<A: de::SeqAccess<'de>>(self, mut list: A) -> Result<Field<'de>, A::Error> {
        while list.next_element::<Value>()?.is_some() {}
        Ok(Field::Other)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Field<'de>, A::Error> {
        while map.next_entry::<String, Value>()?.is_some() {}
        Ok(Field::Other)
    }
}

fn not_an_object<E: de::Error>() -> E {
    E::custom("it is not an object")
}
