//! Names of things, each its own type, so that a machine is never passed where a room is meant.
//!
//! Ids come from the rulebook, the members file or a device. They are opaque here: nothing is parsed out of one
//! except [`ChoreId`], which is `owner/chore` by the headless contract.

use std::fmt;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::{Deserialize, Serialize};

macro_rules! id {
    ($(#[$doc:meta] $name:ident),* $(,)?) => {$(
        #[$doc]
        #[derive(
            Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, BorshSerialize, BorshDeserialize,
        )]
        #[serde(transparent)]
        pub struct $name(String);

        impl $name {
            /// Takes the id as it is written.
            pub fn new(id: impl Into<String>) -> Self {
                Self(id.into())
            }

            /// The id as it is written.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl crate::json::FromJson for $name {
            fn from_json(value: &serde_json::Value) -> Result<Self, crate::json::Unfit> {
                <String as crate::json::FromJson>::from_json(value).map(Self)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl From<&str> for $name {
            fn from(id: &str) -> Self {
                Self(id.to_owned())
            }
        }
    )*};
}

id! {
    /// A session: one person's stay in one room, named by the device that began it.
    SessionId,
    /// A person of the members file.
    PersonId,
    /// A room of the rulebook.
    RoomId,
    /// A machine of the rulebook.
    MachineId,
    /// A statement attested at the door.
    StatementId,
    /// Gear that chores share.
    GearId,
    /// A recurring duty of a room.
    RoundId,
    /// A stop of the induction walk.
    StopId,
    /// A chore with its owner: `machine/chore` or `room/chore`.
    ChoreId,
    /// A device: its Ed25519 public key, base64url without padding (RFC 8037 `x`), 43 characters.
    DeviceId,
    /// The SHA-256 of a rulebook's TOML bytes, base64url without padding, 43 characters.
    BookId,
}

impl SessionId {
    /// A new session's id, from eight bytes of entropy: 16 lower-case hexadecimal digits.
    pub fn from_entropy(entropy: [u8; 8]) -> Self {
        Self(format!("{:016x}", u64::from_be_bytes(entropy)))
    }

    /// Where facts stand that are said outside any session: a tag, something found, an incident.
    pub fn outside() -> Self {
        Self("outside".to_owned())
    }
}

impl ChoreId {
    /// The chore `chore` of the machine or room `owner`.
    pub fn of(owner: &str, chore: &str) -> Self {
        Self([owner, "/", chore].concat())
    }

    /// Whether this is [`ChoreId::of`] these two; builds nothing.
    pub fn is_of(&self, owner: &str, chore: &str) -> bool {
        self.0.strip_prefix(owner).and_then(|rest| rest.strip_prefix('/')) == Some(chore)
    }

    /// The machine or room that the chore belongs to.
    pub fn owner(&self) -> &str {
        self.0.split_once('/').map_or("", |(owner, _)| owner)
    }
}
