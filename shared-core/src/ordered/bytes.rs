//! Maps and sets as Borsh bytes: how many, then each in order. The bytes are those that the library makes of the standard library's.

use borsh::io::{Error, ErrorKind, Read, Result, Write};
use borsh::{BorshDeserialize, BorshSerialize};

use super::{Map, Set};

impl<K: BorshSerialize, V: BorshSerialize> BorshSerialize for Map<K, V> {
    fn serialize<W: Write>(&self, writer: &mut W) -> Result<()> {
        let len = u32::try_from(self.len()).map_err(|_| Error::from(ErrorKind::InvalidData))?;
        len.serialize(writer)?;
        for (key, value) in self {
            key.serialize(writer)?;
            value.serialize(writer)?;
        }
        Ok(())
    }
}

impl<K: BorshDeserialize + Ord, V: BorshDeserialize> BorshDeserialize for Map<K, V> {
    fn deserialize_reader<R: Read>(reader: &mut R) -> Result<Self> {
        let mut map = Self::new();
        for _ in 0..u32::deserialize_reader(reader)? {
            map.insert(K::deserialize_reader(reader)?, V::deserialize_reader(reader)?);
        }
        Ok(map)
    }
}

impl<T: BorshSerialize> BorshSerialize for Set<T> {
    fn serialize<W: Write>(&self, writer: &mut W) -> Result<()> {
        self.0.serialize(writer)
    }
}

impl<T: BorshDeserialize + Ord> BorshDeserialize for Set<T> {
    fn deserialize_reader<R: Read>(reader: &mut R) -> Result<Self> {
        Map::deserialize_reader(reader).map(Self)
    }
}
